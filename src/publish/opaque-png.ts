import { decode, encode } from 'fast-png';

/**
 * The same picture without its alpha channel. A printer treats a page with transparency as a special case, even where
 * every dot is opaque.
 */
export function opaquePng(png: Uint8Array): Uint8Array {
  const { width, height, data, channels } = decode(png);
  if (channels !== 4)
    throw new Error(`expected red, green, blue and alpha, found ${channels} channels`);
  const opaque = new Uint8Array(width * height * 3);
  for (let from = 0, to = 0; from < data.length; from += 4) {
    if (data[from + 3] !== 255) throw new Error('the picture has a dot that is not opaque');
    opaque[to++] = data[from] as number;
    opaque[to++] = data[from + 1] as number;
    opaque[to++] = data[from + 2] as number;
  }
  return encode({ width, height, data: opaque, channels: 3, depth: 8 });
}

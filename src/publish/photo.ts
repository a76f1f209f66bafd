import { createCanvas, loadImage } from '@napi-rs/canvas';
import { bad, good, type Outcome } from '../record/problem.js';
import type { RasterImage } from '../words/handout.js';
import type { Photo } from '../words/photos.js';
import type { PhotoFile } from './load-case.js';
import { isCutShort, statedSize } from './picture-size.js';
import { whereNamed } from './where-named.js';

export interface DecodedPhoto extends Photo {
  readonly on: PhotoFile['on'];
}

/** Decodes the photos of a case, or tells of each that cannot be read. */
export async function decodePhotos(files: readonly PhotoFile[]): Promise<Outcome<DecodedPhoto[]>> {
  const decoded = await Promise.all(
    files.map(async ({ file, place, bytes, shows, on }) => ({
      shows,
      on,
      image: whereNamed(await photoImage(bytes, file), place),
    })),
  );
  const problems = decoded.flatMap(({ image }) => (image.ok ? [] : image.problems));
  if (problems.length > 0) return bad(...problems);
  return good(
    decoded.flatMap(({ shows, on, image }) =>
      image.ok ? [{ shows, on, figure: { kind: 'image' as const, image: image.value } }] : [],
    ),
  );
}

/** The photos that one document prints. */
export const photosFor = (photos: readonly DecodedPhoto[], document: PhotoFile['on'][number]) =>
  photos.filter(({ on }) => on.includes(document));

/** Longest side after re-encoding, pixels: sharp at the printed size, small enough to send. */
const LONGEST_SIDE = 1400;
/** A small file may state a size that fills the memory once it is unpacked; larger cameras are rare (common practice). */
const MOST_DOTS = 120_000_000;
const QUALITY = 82;
/** Printed size, mm: two photos fit on a page beside their text. */
const WIDEST = 120;
const TALLEST = 90;

/**
 * Decodes a photo and encodes it anew, upright, without anything but its dots: camera, place, time, thumbnail and
 * comments stay behind.
 */
export async function photoImage(bytes: Uint8Array, file: string): Promise<Outcome<RasterImage>> {
  const size = statedSize(bytes);
  // What states no size as JPEG or PNG do is handed to no decoder, whatever other kinds of picture it may know.
  if (size === null) return unreadable(file);
  if (size.width * size.height > MOST_DOTS) {
    return bad({
      kind: 'a photo with too many dots',
      file,
      found: `${size.width} x ${size.height} dots`,
      expected: `a photo of at most ${MOST_DOTS / 1e6} million dots`,
      mend: 'Save it smaller.',
    });
  }
  const picture = await loadImage(Buffer.from(bytes)).catch(() => null);
  if (!picture || picture.width === 0 || picture.height === 0) return unreadable(file);
  if (isCutShort(bytes)) {
    return bad({
      kind: 'a photo that cannot be read',
      file,
      found: 'a picture that ends before its last line',
      expected: 'the whole photo',
      mend: 'Copy it again from the camera or the phone.',
    });
  }
  const shrink = Math.min(1, LONGEST_SIDE / Math.max(picture.width, picture.height));
  const width = Math.max(1, Math.round(picture.width * shrink));
  const height = Math.max(1, Math.round(picture.height * shrink));
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, width, height);
  context.drawImage(picture, 0, 0, width, height);
  const scale = Math.min(WIDEST / width, TALLEST / height);
  return good({
    bytes: new Uint8Array(canvas.toBuffer('image/jpeg', QUALITY)),
    widthMm: width * scale,
    heightMm: height * scale,
  });
}

const unreadable = (file: string): Outcome<never> =>
  bad({
    kind: 'a photo that cannot be read',
    file,
    found: 'a file that cannot be read as a picture',
    expected: 'a photo in JPEG or PNG',
    mend: 'Export the photo again as JPEG.',
  });

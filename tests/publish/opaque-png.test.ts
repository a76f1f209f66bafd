import { createCanvas, loadImage } from '@napi-rs/canvas';
import { describe, expect, it } from 'vitest';
import { opaquePng } from '../../src/publish/opaque-png.js';

function painted(alpha: number) {
  const canvas = createCanvas(61, 47);
  const ctx = canvas.getContext('2d');
  ctx.fillStyle = '#ffffff';
  ctx.globalAlpha = alpha;
  ctx.fillRect(0, 0, 61, 47);
  ctx.globalAlpha = 1;
  for (let i = 0; i < 40; i++) {
    ctx.fillStyle = `rgb(${(i * 37) % 256} ${(i * 91) % 256} ${(i * 53) % 256})`;
    ctx.beginPath();
    ctx.arc((i * 17) % 61, (i * 29) % 47, 1 + (i % 9), 0, 7);
    ctx.fill();
  }
  return canvas;
}

const dotsOf = (canvas: ReturnType<typeof painted>) => ({
  width: canvas.width,
  height: canvas.height,
  rgba: canvas.data(),
});

describe('a PNG without alpha', () => {
  it('keeps every dot', async () => {
    const canvas = painted(1);
    const png = opaquePng(dotsOf(canvas));
    expect(png[25]).toBe(2);
    const copy = createCanvas(61, 47);
    copy.getContext('2d').drawImage(await loadImage(png), 0, 0);
    expect(Buffer.compare(copy.data(), canvas.data())).toBe(0);
  });

  it('refuses a picture that shows what is under it, and dots that are too few', () => {
    expect(() => opaquePng(dotsOf(painted(0.5)))).toThrow('not opaque');
    expect(() => opaquePng({ width: 5, height: 3, rgba: new Uint8Array(50) })).toThrow('5 by 3');
  });
});

import type { Scene } from '../scene.js';
import { endOf } from '../view.js';

// CSS pixels and shares of them: not clinical numbers.

export const LETTER = 13;

export const SMALL = 12;

export const font = ({ family }: Scene, size: number, weight = 400) =>
  `${weight} ${size}px ${family}`;

export const sees = ({ view }: Scene, from: number, to: number): boolean =>
  to >= view.from && from <= endOf(view);

/** Paints on the paper alone, moved so that mV stand where `yOf` says. */
export function onPaper(
  context: CanvasRenderingContext2D,
  { view, rooms }: Scene,
  draw: () => void,
) {
  context.save();
  context.beginPath();
  context.rect(0, rooms.paper, view.width, view.height);
  context.clip();
  context.translate(0, rooms.paper);
  draw();
  context.restore();
}

/** A ground for letters on the paper; leaves the ink set for them. */
export function plate(
  context: CanvasRenderingContext2D,
  { inks }: Scene,
  x: number,
  y: number,
  width: number,
  height: number,
): void {
  context.fillStyle = inks.paper;
  context.fillRect(x, y, width, height);
  context.fillStyle = inks.ink;
}

/** Words on lines of a width; null where a word does not fit. */
export function wrapped(
  context: CanvasRenderingContext2D,
  words: string,
  width: number,
  face: string,
): string[] | null {
  context.font = face;
  const lines: string[] = [];
  for (const word of words.split(' ')) {
    const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word;
    if (lines.length > 0 && context.measureText(longer).width <= width) {
      lines[lines.length - 1] = longer;
      continue;
    }
    if (context.measureText(word).width > width) return null;
    lines.push(word);
  }
  return lines;
}

/** As much of some words as fits, with an ellipsis; nothing where not even a few letters do. */
export function shortened(context: CanvasRenderingContext2D, words: string, room: number): string {
  if (context.measureText(words).width <= room) return words;
  for (let length = words.length - 1; length > 5; length--) {
    const part = `${words.slice(0, length).trimEnd()}…`;
    if (context.measureText(part).width <= room) return part;
  }
  return '';
}

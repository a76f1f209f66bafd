import { inks } from '../../draw/inks.js';
import type { Block } from '../../words/handout.js';
import { type Piece, type Place, type Press, piece } from './press.js';
import { aside, type Tag, tag } from './tags.js';
import { baseline, type Passage, printPassage, setPassage, setWithoutWidow } from './text.js';
import type { Voice } from './type-scale.js';

type Callout = Extract<Block, { kind: 'callout' }>;

interface Dress {
  readonly title: Voice;
  readonly text: Voice;
  /** Points from the frame's outside to the text: left, and top and bottom. */
  readonly inset: number;
  readonly pad: number;
  /** Each tone has a frame of its own shape, so that they differ without colour. */
  readonly frame: (press: Press, box: Frame) => void;
}

interface Frame extends Place {
  readonly width: number;
  readonly height: number;
}

/** Framed text, in one piece where a page can hold it. */
export function calloutPieces(press: Press, root: Tag, block: Callout): Piece[] {
  const { sheet, type } = press;
  const dress = dressFor(press, block.tone);
  const width = sheet.right - sheet.left - dress.inset - 14;
  const node = tag(press, root, 'Sect');
  const gap = dress.text.size * 0.4;
  const title = setPassage(press, [{ text: block.title }], dress.title, width);
  const set = block.tone === 'first' ? setWithoutWidow : setPassage;
  const texts = block.said.map(({ runs }) => set(press, runs, dress.text, width));
  const room = (sheet.bottom - sheet.top.later) * 0.8 - title.height;
  return shared(texts, room, gap).map((part, i) => {
    const head = i === 0 ? title.height + (part.length > 0 ? gap : 0) : 0;
    const inner = part.reduce((sum, text) => sum + text.height + gap, -gap);
    const height = 2 * dress.pad + head + Math.max(0, inner);
    return piece({
      before: type.body.size * (i === 0 ? 0.95 : 0.4),
      height,
      print: ({ x, y }) => {
        aside(press, () => dress.frame(press, { x, y, width: sheet.right - sheet.left, height }));
        const left = x + dress.inset;
        let top = y + dress.pad;
        if (i === 0) {
          const into = { tag: tag(press, node, 'P'), type: 'P' };
          printPassage(press, title, { place: { x: left, y: top }, into });
          top += head;
        }
        for (const text of part) {
          const into = { tag: tag(press, node, 'P'), type: 'P' };
          printPassage(press, text, { place: { x: left, y: top }, into });
          top += text.height + gap;
        }
      },
    });
  });
}

/** The texts in as few frames as a page's room asks for; nearly always one. */
function shared(texts: readonly Passage[], room: number, gap: number): Passage[][] {
  const parts: Passage[][] = [[]];
  let used = 0;
  for (const text of texts) {
    if (used > 0 && used + text.height > room) {
      parts.push([]);
      used = 0;
    }
    parts.at(-1)?.push(text);
    used += text.height + gap;
  }
  return parts;
}

function dressFor({ type }: Press, tone: Callout['tone']): Dress {
  switch (tone) {
    case 'first':
      return { title: type.firstTitle, text: type.first, inset: 16, pad: 11, frame: fullFrame };
    case 'warning':
      return { title: type.subsection, text: type.body, inset: 42, pad: 9, frame: barAndSign };
    case 'note': {
      const title = { ...type.caption, colour: inks.ink, bold: true as const };
      const text = { ...type.caption, colour: inks.ink };
      return { title, text, inset: 12, pad: 3, frame: thinRule };
    }
  }
}

/** A closed heavy frame on a tint. */
function fullFrame({ doc }: Press, { x, y, width, height }: Frame): void {
  doc.lineWidth(1.8).fillColor(inks.tint).strokeColor(inks.accent);
  doc.roundedRect(x + 0.9, y + 0.9, width - 1.8, height - 1.8, 4).fillAndStroke();
}

/** A black bar at the left with a warning sign on it, rules above and below, open at the right. */
function barAndSign({ doc, type }: Press, { x, y, width, height }: Frame): void {
  doc.fillColor(inks.ink).rect(x, y, 30, height).fill();
  doc.lineWidth(0.9).strokeColor(inks.ink);
  doc
    .moveTo(x, y + 0.45)
    .lineTo(x + width, y + 0.45)
    .stroke();
  doc
    .moveTo(x, y + height - 0.45)
    .lineTo(x + width, y + height - 0.45)
    .stroke();
  const middle = x + 15;
  const base = y + 9 + baseline(type.subsection) + 1.5;
  doc.lineWidth(1.4).lineJoin('round').strokeColor(inks.paper);
  doc
    .moveTo(middle, base - 13)
    .lineTo(middle + 8, base)
    .lineTo(middle - 8, base)
    .closePath()
    .stroke();
  doc.fillColor(inks.paper);
  doc.rect(middle - 0.75, base - 8.6, 1.5, 4.6).fill();
  doc.circle(middle, base - 2.3, 0.9).fill();
}

/** A thin double rule at the left, nothing else. */
function thinRule({ doc }: Press, { x, y, height }: Frame): void {
  doc.lineWidth(0.6).strokeColor(inks.soft);
  for (const at of [x + 0.5, x + 3]) {
    doc
      .moveTo(at, y)
      .lineTo(at, y + height)
      .stroke();
  }
}

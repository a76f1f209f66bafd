import { inks } from '../../draw/inks.js';
import type { Block, FigureBlock, Telephone } from '../../words/handout.js';
import { printFigure, sizeOf } from './figure.js';
import { mm } from './page.js';
import { type Piece, type Place, type Press, piece } from './press.js';
import { bullet } from './prose.js';
import { type RunIn, setRunIn } from './run-in.js';
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

/** Framed text, in one piece where a page can hold it; telephone numbers stand in the frame, right of the reasons to call. */
export function calloutPieces(press: Press, root: Tag, block: Callout): Piece[] {
  const { sheet, type } = press;
  const dress = dressFor(press, block.tone);
  const inner = sheet.right - sheet.left - dress.inset - (press.dense ? 6 : 14);
  const numbers = block.tone === 'warning' ? setTelephones(press, block.telephones, inner) : null;
  // In large type, and within a column, the numbers follow the reasons.
  const below = press.handout.largeType || press.dense ? numbers : null;
  const picture =
    block.tone === 'first' && block.picture ? setPicture(press, block.picture, inner) : null;
  const taken = (numbers && !below ? numbers.width : 0) + (picture?.width ?? 0);
  const width = inner - (taken > 0 ? taken + (picture ? pictureGap : columnGap) : 0);
  const node = tag(press, root, 'Sect');
  if (press.dense && block.tone === 'note' && block.minor) {
    const set = setRunIn(press, block, dress.text, width);
    if (set) return [runInPiece(press, node, dress, set)];
  }
  const gap = dress.text.size * (press.dense ? 0.2 : 0.3) * press.air;
  const listed = block.said.length > 1;
  const indent = listed ? dress.text.size * (press.dense ? 1.1 : 1.25) : 0;
  const title = setPassage([{ text: block.title }], dress.title, width);
  const set = block.tone === 'first' ? setWithoutWidow : setPassage;
  const texts = block.said.map(({ runs }) => set(runs, dress.text, width - indent));
  const headed = block.title !== '';
  const under = below ? below.height + type.body.size * (press.dense ? 0.3 : 0.6) : 0;
  const room = (sheet.bottom - sheet.top.later) * 0.8 - title.height - under;
  const parts = shared(texts, room, gap);
  const list = listed ? tag(press, node, 'L') : node;
  return parts.map((part, i) => {
    const head = i === 0 && headed ? title.height + (part.length > 0 ? gap : 0) : 0;
    const text = part.reduce((sum, passage) => sum + passage.height + gap, -gap);
    const beside = i > 0 ? 0 : (picture?.height ?? (numbers && !below ? numbers.height : 0));
    const after = i === parts.length - 1 ? under : 0;
    const height = 2 * dress.pad + Math.max(head + Math.max(0, text) + after, beside);
    return piece({
      before: type.body.size * (i === 0 ? 0.85 : 0.4),
      height,
      print: ({ x, y }) => {
        aside(press, () => dress.frame(press, { x, y, width: sheet.right - sheet.left, height }));
        const left = x + dress.inset;
        let top = y + dress.pad;
        if (head > 0) {
          const into = { tag: tag(press, node, 'H2'), type: 'H2' };
          printPassage(press, title, { place: { x: left, y: top }, into });
          top += head;
        }
        for (const passage of part) {
          const place = { x: left + indent, y: top };
          if (listed) {
            bullet(press, dress.text, { x: left - dress.text.size * 0.25, y: top });
            const body = tag(press, tag(press, list, 'LI'), 'LBody');
            printPassage(press, passage, { place, into: { tag: body, type: 'LBody' } });
          } else {
            printPassage(press, passage, {
              place,
              into: { tag: tag(press, node, 'P'), type: 'P' },
            });
          }
          top += passage.height + gap;
        }
        if (i === 0 && picture) {
          const right = x + sheet.right - sheet.left - (press.dense ? 5 : 12);
          picture.print(node, { x: right - picture.width, y: y + (height - picture.height) / 2 });
        } else if (beside > 0)
          numbers?.print(node, { x: left + width + columnGap, y: y + dress.pad });
        if (after > 0) below?.print(node, { x: left, y: y + height - dress.pad - below.height });
      },
    });
  });
}

/** A note whose title begins its text. */
function runInPiece(press: Press, node: Tag, dress: Dress, set: RunIn): Piece {
  const { sheet, type } = press;
  const height = set.height + 2 * dress.pad;
  const into = (type: string) => ({ tag: tag(press, node, type), type });
  return piece({
    before: type.body.size * 0.85,
    height,
    print: ({ x, y }) => {
      aside(press, () => dress.frame(press, { x, y, width: sheet.right - sheet.left, height }));
      const place = { x: x + dress.inset, y: y + dress.pad };
      set.print(place, { heading: into('H2'), text: into('P') });
    },
  });
}

/** From the reasons to call to the numbers, and from a message to its picture, in points. */
const columnGap = 18;
const pictureGap = 8;

/** A small picture over its caption, both in the middle of a column as wide as the wider of the two. */
function setPicture(press: Press, block: FigureBlock, room: number) {
  const { width, height } = sizeOf(block);
  const voice = { ...press.type.caption, colour: inks.ink };
  const words = setPassage(block.caption.runs, voice, room / 3).lines.map((line) => line.width);
  const wide = Math.max(width * mm, ...words);
  const caption = setPassage(block.caption.runs, voice, wide + 0.01);
  const tall = height * mm;
  return {
    width: wide,
    height: tall + caption.height,
    print: (node: Tag, { x, y }: Place) => {
      printFigure(press, node, block, { x: x + (wide - width * mm) / 2, y });
      const into = { tag: tag(press, node, 'Caption'), type: 'Caption' };
      printPassage(press, caption, { place: { x, y: y + tall }, align: 'middle', into });
    },
  };
}

/** Points between two numbers side by side. */
const abreastGap = ({ dense }: Press) => (dense ? 10 : columnGap);

const labelVoice = ({ dense, type }: Press): Voice => ({
  ...(dense ? type.caption : type.note),
  colour: inks.ink,
});

/** Each number large, under its label. */
function setTelephones(press: Press, telephones: readonly Telephone[], room: number) {
  const { type } = press;
  const ink = telephones.map(({ number }) => inkOf(oneWord(number), type.telephone));
  const followReasons = press.handout.largeType || press.dense;
  const gaps = (telephones.length - 1) * abreastGap(press);
  if (followReasons && ink.reduce((sum, width) => sum + width, gaps) <= room)
    return setTelephonesAbreast(press, telephones, room);
  // A number is dialled from one line, if it takes half of the frame.
  const width = followReasons ? room : Math.min(room / 2, Math.max(room * 0.33, ...ink));
  const label = labelVoice(press);
  const set = telephones.map((telephone) => ({
    label: setPassage([{ text: telephone.label }], label, width),
    number: setPassage([{ text: oneWord(telephone.number) }], type.telephone, width),
  }));
  const gap = type.body.size * (press.dense ? 0.2 : 0.6);
  return {
    width,
    height: set.reduce((sum, each) => sum + each.label.height + each.number.height + gap, -gap),
    print: (node: Tag, { x, y }: Place) => {
      let top = y;
      for (const each of set) {
        const into = { tag: tag(press, node, 'P'), type: 'P' };
        printPassage(press, each.label, { place: { x, y: top }, into });
        printPassage(press, each.number, { place: { x, y: top + each.label.height }, into });
        top += each.label.height + each.number.height + gap;
      }
    },
  };
}

/** The numbers side by side, each under its label. */
function setTelephonesAbreast(press: Press, telephones: readonly Telephone[], room: number) {
  const { type } = press;
  const gap = abreastGap(press);
  const label = labelVoice(press);
  const numbers = telephones.map(({ number }) =>
    setPassage([{ text: oneWord(number) }], type.telephone, room),
  );
  const least = numbers.map(({ lines }) => lines[0]?.width ?? 0);
  const wanted = telephones.map((telephone, i) =>
    Math.max(least[i] as number, inkOf(telephone.label, label)),
  );
  // Where there is too little, each has its share, so that they are broken into as many lines.
  const inAll = wanted.reduce((sum, width) => sum + width, 0);
  const share = Math.min(1, (room - gap * (wanted.length - 1)) / inAll);
  const widths = wanted.map((width, i) => Math.max(least[i] as number, width * share));
  const labels = telephones.map((telephone, i) =>
    setPassage([{ text: telephone.label }], label, widths[i] as number),
  );
  const tallest = Math.max(...labels.map(({ height }) => height));
  return {
    width: room,
    height: tallest + Math.max(...numbers.map(({ height }) => height)),
    print: (node: Tag, { x, y }: Place) => {
      let left = x;
      telephones.forEach((_, i) => {
        const into = { tag: tag(press, node, 'P'), type: 'P' };
        const label = labels[i] as Passage;
        printPassage(press, label, { place: { x: left, y: y + tallest - label.height }, into });
        printPassage(press, numbers[i] as Passage, { place: { x: left, y: y + tallest }, into });
        left += (widths[i] as number) + gap;
      });
    },
  };
}

/** Points that a text takes on one line. */
const inkOf = (text: string, voice: Voice): number =>
  setPassage([{ text }], voice, Number.POSITIVE_INFINITY).lines[0]?.width ?? 0;

const oneWord = (number: string) => number.replaceAll(' ', '\u00a0');

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

function dressFor({ type, dense }: Press, tone: Callout['tone']): Dress {
  switch (tone) {
    case 'first':
      return {
        title: type.firstTitle,
        text: type.first,
        inset: dense ? 10 : 16,
        pad: dense ? 5 : 8,
        frame: fullFrame,
      };
    case 'warning':
      return {
        title: type.subsection,
        text: type.body,
        inset: dense ? 22 : 42,
        pad: dense ? 4 : 8,
        frame: barAndSign,
      };
    case 'note': {
      const title = { ...type.note, bold: true as const };
      return {
        title,
        text: type.note,
        inset: dense ? 7.5 : 12,
        pad: dense ? 1 : 3,
        frame: thinRule,
      };
    }
  }
}

/** A closed heavy frame on a tint. */
function fullFrame({ doc }: Press, { x, y, width, height }: Frame): void {
  doc.lineWidth(1.8).fillColor(inks.tint).strokeColor(inks.accent);
  doc.roundedRect(x + 0.9, y + 0.9, width - 1.8, height - 1.8, 4).fillAndStroke();
}

/** A black bar at the left with a warning sign on it, rules above and below, open at the right. */
function barAndSign({ doc, type, dense }: Press, { x, y, width, height }: Frame): void {
  const bar = dense ? 17 : 30;
  doc.fillColor(inks.ink).rect(x, y, bar, height).fill();
  doc.lineWidth(0.9).strokeColor(inks.ink);
  doc
    .moveTo(x, y + 0.45)
    .lineTo(x + width, y + 0.45)
    .stroke();
  doc
    .moveTo(x, y + height - 0.45)
    .lineTo(x + width, y + height - 0.45)
    .stroke();
  const middle = x + bar / 2;
  const base = y + (dense ? 5 : 9) + baseline(type.subsection) + 1.5;
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

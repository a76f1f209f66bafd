import { inks } from '../../draw/inks.js';
import type { Block } from '../../words/handout.js';
import { type Piece, type Place, type Press, piece } from './press.js';
import { setRunIn } from './run-in.js';
import { aside, type Tag, tag } from './tags.js';
import { baseline, type Passage, printPassage, setPassage } from './text.js';
import type { Voice } from './type-scale.js';

type Of<K extends Block['kind']> = Extract<Block, { kind: K }>;

export function headingPieces(press: Press, root: Tag, block: Of<'heading'>): Piece[] {
  const { sheet, type } = press;
  const section = block.level === 2;
  const voice = section ? type.section : type.subsection;
  const passage = setPassage([{ text: block.text }], voice, sheet.right - sheet.left);
  const level = section ? 'H2' : 'H3';
  const drop = section ? (press.dense ? 2 : 5.5) : 0;
  return [
    piece({
      before: type.body.size * (press.dense ? 0.6 : section ? 0.95 : 0.75),
      height: drop + passage.height,
      keepsWithNext: true,
      print: ({ x, y, first }) => {
        // At the head of a page the running head has drawn a rule already.
        if (section && !first) {
          aside(press, () => {
            press.doc.lineWidth(0.6).strokeColor(inks.rule);
            press.doc
              .moveTo(x, y)
              .lineTo(x + sheet.right - sheet.left, y)
              .stroke();
          });
        }
        const into = { tag: tag(press, root, level), type: level };
        printPassage(press, passage, { place: { x, y: y + drop }, into });
      },
    }),
  ];
}

/**
 * A heading in one line with the paragraph that it heads: a small one begins it, a section's stands before what fits beside
 * it. Null for other blocks, and where they would not stand apart.
 */
export function runInPieces(
  press: Press,
  root: Tag,
  heading: Block,
  paragraph: Block | undefined,
): Piece[] | null {
  if (heading.kind !== 'heading' || paragraph?.kind !== 'paragraph') return null;
  if (heading.level === 2) return besideHeading(press, root, heading, paragraph);
  const { sheet, type } = press;
  const said = [paragraph.said];
  const set = setRunIn(press, { title: heading.text, said }, type.body, sheet.right - sheet.left);
  if (!set) return null;
  const into = (type: string) => ({ tag: tag(press, root, type), type });
  return [
    piece({
      before: type.body.size * 0.5,
      height: set.height,
      print: (place) => set.print(place, { heading: into('H3'), text: into('P') }),
    }),
  ];
}

function besideHeading(
  press: Press,
  root: Tag,
  heading: Of<'heading'>,
  paragraph: Of<'paragraph'>,
): Piece[] | null {
  const { sheet, type } = press;
  const width = sheet.right - sheet.left;
  const [above] = headingPieces(press, root, heading);
  const title = setPassage([{ text: heading.text }], type.section, width);
  const said = setPassage(paragraph.said.runs, type.body, Number.POSITIVE_INFINITY);
  const ink = (passage: Passage) => passage.lines[0]?.width ?? 0;
  const left = ink(title) + type.section.size;
  if (!above || title.lines.length > 1 || left + ink(said) > width) return null;
  const nudge = above.height - title.height + baseline(type.section) - baseline(type.body);
  return [
    {
      ...above,
      print: (standing) => {
        above.print(standing);
        const place = { x: standing.x + left, y: standing.y + nudge };
        printPassage(press, said, { place, into: { tag: tag(press, root, 'P'), type: 'P' } });
      },
    },
  ];
}

export function paragraphPieces(press: Press, root: Tag, block: Of<'paragraph'>): Piece[] {
  const { sheet, type } = press;
  const passage = setPassage(block.said.runs, type.body, sheet.right - sheet.left);
  // A line that announces what follows stays with it.
  const announces = block.said.runs.at(-1)?.text.trimEnd().endsWith(':') ?? false;
  return linesAsPieces(press, passage, {
    into: { tag: tag(press, root, 'P'), type: 'P' },
    indent: 0,
    before: type.body.size * 0.5,
    keepsWithNext: announces,
  });
}

/** What is folded on a page, in small type that begins with its title; blocks other than paragraphs are not small. */
export function smallPieces(press: Press, root: Tag, { title, blocks }: Of<'fold'>): Piece[] {
  const { sheet, type } = press;
  return blocks.flatMap((block, index) => {
    if (block.kind !== 'paragraph') throw new Error(`a small fold holds no ${block.kind}`);
    const named = index === 0 ? [{ text: `${title}: `, strong: true as const }] : [];
    const runs = [...named, ...block.said.runs];
    return linesAsPieces(press, setPassage(runs, type.caption, sheet.right - sheet.left), {
      into: { tag: tag(press, root, 'P'), type: 'P' },
      indent: 0,
      before: type.caption.size * 0.4,
    });
  });
}

/** Lines in pieces that leave no single line behind or ahead: two at the head, two at the foot. */
function linesAsPieces(
  press: Press,
  passage: Passage,
  how: {
    readonly into: { readonly tag: Tag; readonly type: string };
    readonly indent: number;
    readonly before: number;
    readonly keepsWithNext?: boolean;
    readonly first?: (x: number, y: number) => void;
  },
): Piece[] {
  const count = passage.lines.length;
  const cuts =
    count <= 4 ? [0, count] : [0, 2, ...Array.from({ length: count - 4 }, (_, i) => i + 3)];
  if (count > 4) cuts.push(count);
  return cuts.slice(1).map((to, i) => {
    const from = cuts[i] ?? 0;
    return piece({
      before: from === 0 ? how.before : 0,
      height: (to - from) * passage.voice.leading,
      keepsWithNext: to === count && how.keepsWithNext === true,
      print: ({ x, y }) => {
        if (from === 0) how.first?.(x, y);
        printPassage(press, passage, { place: { x: x + how.indent, y }, from, to, into: how.into });
      },
    });
  });
}

export function listPieces(press: Press, root: Tag, block: Of<'list'>): Piece[] {
  const { sheet, type } = press;
  const list = tag(press, root, 'L', block.ordered ? { numbering: 'Decimal' } : {});
  const indent = type.body.size * (block.ordered ? 1.9 : press.dense ? 1.1 : 1.45);
  return block.items.flatMap((item, i) => {
    const passage = setPassage(item.runs, type.body, sheet.right - sheet.left - indent);
    const entry = tag(press, list, 'LI');
    const body = tag(press, entry, 'LBody');
    return linesAsPieces(press, passage, {
      into: { tag: body, type: 'LBody' },
      indent,
      before: type.body.size * (i === 0 ? 0.45 : 0.22),
      // No item is left alone at a foot or at a head.
      keepsWithNext: block.items.length > 1 && (i === 0 || i === block.items.length - 2),
      first: (x, y) => {
        if (block.ordered) number(press, tag(press, entry, 'Lbl'), i + 1, x, y, indent);
        else bullet(press, type.body, { x, y });
      },
    });
  });
}

function number(press: Press, label: Tag, value: number, x: number, y: number, indent: number) {
  const runs = [{ text: `${value}.`, strong: true as const }];
  const width = indent - press.type.body.size * 0.5;
  const passage = setPassage(runs, press.type.body, width);
  printPassage(press, passage, {
    place: { x, y },
    align: 'end',
    into: { tag: label, type: 'Lbl' },
  });
}

/** The dot before an item, at the height of the first line's small letters. */
export function bullet(press: Press, voice: Voice, { x, y }: Place): void {
  aside(press, () => {
    const [ink, radius] = press.handout.largeType ? [inks.ink, 0.19] : [inks.accent, 0.15];
    press.doc
      .fillColor(ink)
      .circle(x + voice.size * 0.5, y + baseline(voice) - voice.size * 0.25, voice.size * radius);
    press.doc.fill();
  });
}

/** Preformatted lines on a tint, with a rule at the left that also shows without grey. */
export function codePieces(press: Press, root: Tag, block: Of<'code'>): Piece[] {
  const { sheet, type } = press;
  const paragraph = tag(press, root, 'P');
  const code = tag(press, paragraph, 'Code');
  const inset = 9;
  const width = sheet.right - sheet.left - 2 * inset;
  const lines = block.text.replace(/\n+$/, '').split('\n');
  const pad = type.code.size * 0.5;
  return lines.map((line, i) => {
    // No-break spaces keep the indentation, which running text would fold.
    const text = line.replace(/ /g, '\u00a0');
    const passage = setPassage([{ text, code: true }], type.code, width);
    const above = i === 0 ? pad : 0;
    const below = i === lines.length - 1 ? pad : 0;
    const height = passage.height + above + below;
    return piece({
      before: i === 0 ? type.body.size * 0.7 : 0,
      height,
      keepsWithNext: i === 0 && lines.length > 1,
      print: ({ x, y }) => {
        aside(press, () => {
          // A hair taller than the line, so that no seam shows between the lines.
          press.doc
            .fillColor(inks.tint)
            .rect(x, y, sheet.right - sheet.left, height + (below > 0 ? 0 : 0.3))
            .fill();
          press.doc
            .fillColor(inks.soft)
            .rect(x, y, 1.4, height + (below > 0 ? 0 : 0.3))
            .fill();
        });
        if (line === '') return;
        const place = { x: x + inset, y: y + above };
        printPassage(press, passage, { place, into: { tag: code, type: 'Code' } });
      },
    });
  });
}

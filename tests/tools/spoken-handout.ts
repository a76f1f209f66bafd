import type { Asked, Block, Cell, Handout, Said } from '../../src/words/handout.js';

/**
 * A handout as it is read aloud, from its draft mark to its last block, pictures left out. Written apart from the
 * printer: what it says in which order is what the printed file is held to.
 */
export const spokenHandout = (handout: Handout): string[] => [
  ...(handout.draft === null ? [] : [handout.draft]),
  ...handout.sender,
  handout.title,
  handout.lead,
  ...(handout.code && !handout.largeType ? spokenBlock(handout.code, false) : []),
  ...handout.blocks.flatMap((block) => spokenBlock(block, handout.largeType === true)),
  ...(handout.code && handout.largeType ? spokenBlock(handout.code, true) : []),
];

/** The pictures of a handout in usual type in words, in order. */
export const spokenPictures = ({ code, blocks }: Handout): string[] => [
  ...(code ? [code.alternative] : []),
  ...pictures(blocks),
];

/** The pictures of a cell: in usual type a box by its day and hour, where the days share their hours. */
const cellPictures = (cell: Cell): string[] =>
  cell.kind === 'said'
    ? []
    : [
        ...(cell.kind === 'lines' ? [] : (cell.grid?.weeks.flat() ?? [])).flatMap(({ day, due }) =>
          due.flatMap((is, i) =>
            is && cell.kind === 'ticks' ? [`${day}, ${cell.grid?.hours[i]}`] : [],
          ),
        ),
        ...(cell.figure ? [cell.figure.alternative] : []),
      ];

const pictures = (blocks: readonly Block[]): string[] =>
  blocks.flatMap((block) => {
    if (block.kind === 'page' || block.kind === 'fold') return pictures(block.blocks);
    if (block.kind === 'exercise') return block.figure ? [block.figure.alternative] : [];
    if (block.kind === 'beside') return pictures([...block.left, ...block.right]);
    if (block.kind === 'table') {
      return block.rows.flat().flatMap(cellPictures);
    }
    if (block.kind === 'callout') {
      return block.tone === 'first' && block.picture ? [block.picture.alternative] : [];
    }
    return block.kind === 'figure' ? [block.alternative] : [];
  });

/** A text without any space: lines and pages may break it anywhere. */
export const squeezed = (text: string) => text.replace(/[\s\u00a0]+/g, '');

const words = ({ runs }: Said): string => runs.map(({ text }) => text).join('');

function cellWords(cell: Cell, largeType: boolean): string[] {
  if (cell.kind === 'said') return cell.said.map(words);
  const byHand =
    cell.kind === 'lines'
      ? cell.labels
      : cell.grid && !largeType
        ? cell.grid.weeks.flat().flatMap(({ weekday, date }) => [weekday, date])
        : cell.days.flatMap(({ day, boxes }) => [day, ...boxes]);
  return [...byHand, ...(cell.figure ? [words(cell.figure.caption)] : [])];
}

const spokenLines = (asks: Asked): string[] => {
  const choices = (options: readonly { label: string }[]) => options.map(({ label }) => label);
  if (asks.kind === 'numbers') {
    return asks.fields.map(({ label, unit }) => `${label}: __________ ${unit}`);
  }
  if (asks.kind === 'choice') return choices(asks.options);
  return asks.items.map(({ label }) => `${label}: ${choices(asks.options).join(' / ')}`);
};

function spokenBlock(block: Block, largeType: boolean): string[] {
  const inner = (blocks: readonly Block[]) => blocks.flatMap((one) => spokenBlock(one, largeType));
  switch (block.kind) {
    case 'heading':
    case 'code':
      return [block.text];
    case 'paragraph':
      return [words(block.said)];
    case 'list':
      return block.items.map((item, i) => `${block.ordered ? `${i + 1}. ` : ''}${words(item)}`);
    case 'pairs':
      return block.rows.flatMap(([label, value]) => [label, words(value)]);
    case 'table':
      return [
        ...(block.captionBy === 'heading' ? [] : [block.caption]),
        ...block.columns.map(({ title }) => title),
        ...block.rows.flat().flatMap((cell) => cellWords(cell, largeType)),
      ];
    case 'callout':
      return [
        block.title,
        ...block.said.map(words),
        ...(block.tone === 'warning'
          ? block.telephones.flatMap(({ label, number }) => [label, number])
          : []),
        ...(block.tone === 'first' && block.picture ? [words(block.picture.caption)] : []),
      ];
    case 'figure':
      return [words(block.caption)];
    case 'page':
      return inner(block.blocks);
    case 'fold':
      return [
        // A small one begins with its title, on the same line.
        block.small ? `${block.title}:` : block.title,
        ...inner(block.blocks),
      ];
    case 'exercise':
      return [
        block.title,
        ...block.question.map(words),
        ...(block.figure ? [words(block.figure.caption)] : []),
        ...spokenLines(block.asks),
      ];
    case 'beside':
      return inner([...block.left, ...block.right]);
  }
}

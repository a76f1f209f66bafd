import type { Block, Cell, Handout, Said } from '../../src/words/handout.js';

/**
 * A handout as it is read aloud, from its draft mark to its last block, pictures left out. Written apart from the
 * printer: what it says in which order is what the printed file is held to.
 */
export const spokenHandout = (handout: Handout): string[] => [
  ...(handout.draft === null ? [] : [handout.draft]),
  ...handout.sender,
  handout.title,
  handout.lead,
  ...handout.blocks.flatMap(spokenBlock),
];

/** The pictures of a handout in words, in order. */
export const spokenPictures = (blocks: readonly Block[]): string[] =>
  blocks.flatMap((block) => {
    if (block.kind === 'page') return spokenPictures(block.blocks);
    return block.kind === 'figure' ? [block.alternative] : [];
  });

const words = ({ runs }: Said): string => runs.map(({ text }) => text).join('');

const cellWords = (cell: Cell): string[] =>
  cell.kind === 'said'
    ? cell.said.map(words)
    : cell.days.flatMap(({ day, boxes }) => [day, ...boxes]);

function spokenBlock(block: Block): string[] {
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
        ...block.rows.flat().flatMap(cellWords),
      ];
    case 'callout':
      return [
        block.title,
        ...block.said.map(words),
        ...(block.tone === 'warning'
          ? block.telephones.flatMap(({ label, number }) => [label, number])
          : []),
      ];
    case 'figure':
      return [words(block.caption)];
    case 'page':
      return block.blocks.flatMap(spokenBlock);
  }
}

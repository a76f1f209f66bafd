import { onPaper } from './exercise-on-paper.js';
import type { Block, Cell, Said } from './handout.js';

/** The words of a passage as one reads them. */
export const readText = (said: Said): string => said.runs.map(({ text }) => text).join('');

/** All words that a handout prints, captions, alternatives and the targets of links included. */
export const textOf = (blocks: readonly Block[]): string => blocks.map(textOfBlock).join('\n');

const textOfSaid = (said: Said): string =>
  said.runs.map(({ text, href }) => (href ? `${text} ${href} ` : text)).join('');

function textOfBlock(block: Block): string {
  switch (block.kind) {
    case 'heading':
    case 'code':
      return block.text;
    case 'paragraph':
      return textOfSaid(block.said);
    case 'list':
      return block.items.map(textOfSaid).join('\n');
    case 'pairs':
      return block.rows.map(([label, value]) => `${label} ${textOfSaid(value)}`).join('\n');
    case 'callout':
      return [
        block.title,
        ...block.said.map(textOfSaid),
        ...(block.tone === 'warning'
          ? block.telephones.map(({ label, number }) => `${label} ${number}`)
          : []),
        ...(block.tone === 'first' && block.picture ? [textOfBlock(block.picture)] : []),
      ].join('\n');
    case 'figure':
      return `${block.alternative} ${textOfSaid(block.caption)}`;
    case 'page':
      return textOf(block.blocks);
    case 'fold':
      return `${block.title}\n${textOf(block.blocks)}`;
    case 'exercise':
      return [
        textOf(onPaper(block)),
        ...block.answer.map(textOfSaid),
        block.labels.check,
        block.labels.answer,
      ].join('\n');
    case 'beside':
      return textOf([...block.left, ...block.right]);
    case 'table':
      return [
        block.caption,
        ...block.columns.map(({ title }) => title),
        ...block.rows.flat().map(textOfCell),
      ].join('\n');
  }
}

function textOfCell(cell: Cell): string {
  if (cell.kind === 'said') return cell.said.map(textOfSaid).join(' ');
  return [
    ...(cell.kind === 'lines'
      ? cell.labels
      : cell.days.map(({ day, boxes }) => [day, ...boxes].join(' '))),
    ...(cell.figure ? [textOfBlock(cell.figure)] : []),
  ].join(' ');
}

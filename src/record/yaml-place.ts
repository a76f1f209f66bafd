import { type Document, isMap, isNode, isPair, isScalar, type LineCounter } from 'yaml';
import { shortened } from './refusal.js';

/** The way to a field of a record: keys of groups, and places in lists from 0. */
export type Path = readonly (string | number)[];

/** `medicines[0].dose` */
export function fieldName(path: Path): string {
  return path
    .map((key, index) =>
      typeof key === 'number' ? `[${key}]` : `${index === 0 ? '' : '.'}${shortened(key)}`,
    )
    .join('');
}

/**
 * Line and column of a field's key, and the end of its value where that is on the same line; those of the nearest field
 * that holds it, where it is absent.
 */
export function placeOf(document: Document, lines: LineCounter, path: Path) {
  for (let length = path.length; length > 0; length--) {
    const span = spanOf(document, path.slice(0, length));
    if (span === null) continue;
    const start = position(lines, span.from);
    const end = position(lines, span.to);
    const isWhole = end.line === start.line && end.column > start.column;
    return { ...start, ...(isWhole && { end: end.column }) };
  }
  return { line: 1, column: 1 };
}

/** Offsets of a field, from its key to the end of its value. */
function spanOf(document: Document, path: Path): { from: number; to: number } | null {
  const holder = path.length === 1 ? document.contents : document.getIn(path.slice(0, -1), true);
  if (isMap(holder)) {
    const pair = holder.items.find(
      (item) => isPair(item) && keyOf(item.key) === String(path.at(-1)),
    );
    if (pair && isNode(pair.key) && pair.key.range) {
      const [from, keyEnd] = pair.key.range;
      return { from, to: (isNode(pair.value) && pair.value.range?.[1]) || keyEnd };
    }
  }
  const node = document.getIn(path, true);
  return isNode(node) && node.range ? { from: node.range[0], to: node.range[1] } : null;
}

/** A key as a reader of the record sees it: `1:` is the key "1". */
export function keyOf(key: unknown): string {
  return String(isScalar(key) ? key.value : key);
}

/** Line and column of an offset, both from 1. */
export function position(lines: LineCounter, offset: number) {
  const { line, col } = lines.linePos(offset);
  return { line, column: col };
}

import type { Block } from '../../words/handout.js';

/** Ids that a page has of its own. */
const TAKEN = ['content', 'see-also'];

/** Longer ids make addresses that nobody can read. Not a clinical number. */
const LONGEST_ANCHOR = 60;

/** The words of a heading as they stand in an address: `¿Qué muestra?` to `que-muestra`. */
export function anchorOf(heading: string): string {
  const words = heading
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');
  let anchor = words.shift() ?? 'part';
  for (const word of words) {
    if (anchor.length + 1 + word.length > LONGEST_ANCHOR) break;
    anchor += `-${word}`;
  }
  return anchor;
}

/** Gives each heading of one page an id of its own, the same at every build as long as its words are. */
export function anchors(): (heading: string) => string {
  const used = new Set(TAKEN);
  return (heading) => {
    const wanted = anchorOf(heading);
    let id = wanted;
    for (let count = 2; used.has(id); count++) id = `${wanted}-${count}`;
    used.add(id);
    return id;
  };
}

type Heading = Extract<Block, { kind: 'heading' }>;

/** The id of each heading of a handout, in the order in which they stand. */
export function headingAnchors(blocks: readonly Block[]): ReadonlyMap<Heading, string> {
  const anchor = anchors();
  const found = new Map<Heading, string>();
  const walk = (inner: readonly Block[]): void => {
    for (const block of inner) {
      if (block.kind === 'heading') found.set(block, anchor(block.text));
      else if (block.kind === 'page' || block.kind === 'fold') walk(block.blocks);
      else if (block.kind === 'beside') walk([...block.left, ...block.right]);
    }
  };
  walk(blocks);
  return found;
}

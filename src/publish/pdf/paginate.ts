import type { Piece } from './press.js';

export interface Placed {
  readonly piece: Piece;
  /** Top, in points. */
  readonly y: number;
  readonly again: boolean;
}

/** Where blocks begin on the first and on every later page, and where they must end, in points. */
export interface Room {
  readonly top: { readonly first: number; readonly later: number };
  readonly bottom: number;
}

/** Deals the pieces to pages: in order, none split, none that keeps with the next left alone at a foot. */
export function paginate(pieces: readonly Piece[], room: Room): Placed[][] {
  const pages: Placed[][] = [[]];
  let y = room.top.first;
  const page = () => pages.at(-1) ?? [];
  const turn = () => {
    pages.push([]);
    y = room.top.later;
  };
  const lay = (piece: Piece, again: boolean) => {
    if (page().length > 0) y += piece.before;
    page().push({ piece, y, again });
    y += piece.height;
  };
  for (const group of groupsKeptTogether(pieces)) {
    const tallest = room.bottom - room.top.later;
    if (page().length > 0 && group[0]?.startsPage) turn();
    if (page().length > 0 && y + heightOf(group) > room.bottom && heightOf(group) <= tallest)
      turn();
    for (const piece of group) {
      if (piece.height > tallest) {
        throw new Error(
          `a block of ${piece.height.toFixed(0)} pt is taller than the page's ${tallest.toFixed(0)} pt`,
        );
      }
      const ends = y + (page().length > 0 ? piece.before : 0) + piece.height;
      if (page().length > 0 && ends > room.bottom + 0.01) turn();
      if (page().length === 0 && pages.length > 1 && piece.headedBy) lay(piece.headedBy, true);
      lay(piece, false);
    }
  }
  return pages;
}

function groupsKeptTogether(pieces: readonly Piece[]): Piece[][] {
  const groups: Piece[][] = [];
  let group: Piece[] = [];
  for (const piece of pieces) {
    if (piece.startsPage && group.length > 0) {
      groups.push(group);
      group = [];
    }
    group.push(piece);
    if (piece.keepsWithNext) continue;
    groups.push(group);
    group = [];
  }
  return group.length > 0 ? [...groups, group] : groups;
}

const heightOf = (group: readonly Piece[]) =>
  group.reduce((sum, piece) => sum + piece.before + piece.height, 0);

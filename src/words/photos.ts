import type { Block, Figure } from './handout.js';
import { plain } from './markdown.js';

/** A photo ready to print. */
export interface Photo {
  readonly figure: Figure;
  readonly shows: string;
}

/** Photos one below the other, each with what it shows. */
export const photoBlocks = (photos: readonly Photo[]): Block[] =>
  photos.map(({ figure, shows }, index) => ({
    kind: 'figure',
    name: `photo-${index + 1}`,
    figure,
    caption: plain(shows),
    alternative: shows,
  }));

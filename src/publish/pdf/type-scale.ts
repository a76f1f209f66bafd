import { inks } from '../../draw/inks.js';
import type { Handout } from '../../words/handout.js';

/** How a passage is set: size and line height in points. */
export interface Voice {
  readonly size: number;
  readonly leading: number;
  readonly colour: string;
  readonly bold?: true;
  /** Figures of equal width, so that columns of numbers line up. */
  readonly tabular?: true;
}

export interface TypeScale {
  readonly title: Voice;
  readonly lead: Voice;
  readonly sender: Voice;
  readonly address: Voice;
  readonly section: Voice;
  readonly subsection: Voice;
  readonly body: Voice;
  readonly label: Voice;
  readonly cell: Voice;
  readonly columnTitle: Voice;
  readonly caption: Voice;
  readonly small: Voice;
  readonly first: Voice;
  readonly firstTitle: Voice;
  readonly code: Voice;
  /** A number to dial. */
  readonly telephone: Voice;
  readonly note: Voice;
  /** Beside a box to tick. */
  readonly tick: Voice;
}

/** Points. */
const OWNER_SIZE = 10.4;

/** Below this share of the usual size lines stand a little closer too, which no larger size needs. */
const CLOSE = 0.93;

/**
 * One base size per reader: an owner reads at a kitchen table, tired; a learner at a desk.
 * @param size share of that size; large type is never smaller
 */
export function typeScale(
  { reader, largeType }: Pick<Handout, 'reader' | 'largeType'>,
  size = 1,
  dense = false,
): TypeScale {
  if (largeType) return largeScale();
  if (dense) return denseScale(size);
  const base = (reader === 'owner' ? OWNER_SIZE : 10) * size;
  const voice = (share: number, line: number, colour: string = inks.ink): Voice => ({
    size: base * share,
    leading: base * share * line * (size < CLOSE ? 0.96 : 1),
    colour,
  });
  return {
    title: { ...voice(2, 1.14), bold: true },
    lead: voice(1.14, 1.32, inks.soft),
    sender: { ...voice(1.06, 1.3), bold: true },
    address: voice(0.8, 1.36, inks.soft),
    section: { ...voice(1.36, 1.22), bold: true },
    subsection: { ...voice(1.08, 1.24), bold: true },
    body: voice(1, 1.35),
    label: voice(0.95, 1.35, inks.soft),
    cell: { ...voice(0.965, 1.28), tabular: true },
    columnTitle: { ...voice(0.82, 1.28), bold: true },
    caption: voice(0.86, 1.34, inks.soft),
    small: voice(0.76, 1.2, inks.soft),
    first: voice(1.1, 1.32),
    firstTitle: { ...voice(1.26, 1.24), bold: true },
    code: voice(0.84, 1.45),
    telephone: { ...voice(1.85, 1.2), bold: true, tabular: true },
    note: voice(0.965, 1.28),
    tick: { ...voice(0.86, 1.2), tabular: true },
  };
}

/** For a sheet in two columns on one page: lines closer, headings smaller, the text itself as large as elsewhere. */
function denseScale(size: number): TypeScale {
  const base = OWNER_SIZE * size;
  const voice = (share: number, line: number, colour: string = inks.ink): Voice => ({
    size: base * share,
    leading: base * share * line * (size < CLOSE ? 0.98 : 1),
    colour,
  });
  return {
    title: { ...voice(1.7, 1.12), bold: true },
    lead: voice(1.02, 1.25, inks.soft),
    sender: { ...voice(1.04, 1.25), bold: true },
    address: voice(0.84, 1.3, inks.soft),
    section: { ...voice(1.2, 1.16), bold: true },
    subsection: { ...voice(1, 1.2), bold: true },
    body: voice(1, 1.18),
    label: voice(0.95, 1.25, inks.soft),
    cell: { ...voice(0.97, 1.18), tabular: true },
    columnTitle: { ...voice(0.84, 1.2), bold: true },
    caption: voice(0.86, 1.2, inks.soft),
    small: voice(0.76, 1.2, inks.soft),
    first: voice(1.04, 1.22),
    firstTitle: { ...voice(1.2, 1.18), bold: true },
    code: voice(0.84, 1.3),
    telephone: { ...voice(1.4, 1.12), bold: true, tabular: true },
    note: voice(0.97, 1.18),
    tick: { ...voice(0.86, 1.18), tabular: true },
  };
}

/**
 * Large type. Large Print Guidelines of the American Council of the Blind (acb.org/node/173, 2022): 18 points for text,
 * 22 for headings, 20 for those below them, lines at least 1.15 apart, page numbers and notes no smaller than the text.
 * All is printed in black.
 */
function largeScale(): TypeScale {
  const voice = (size: number, line = 1.3): Voice => ({
    size,
    leading: size * line,
    colour: inks.ink,
  });
  const text = voice(18);
  const heading: Voice = { ...voice(22, 1.2), bold: true };
  const subheading: Voice = { ...voice(20, 1.2), bold: true };
  return {
    title: { ...voice(28, 1.15), bold: true },
    lead: text,
    sender: { ...text, bold: true },
    address: text,
    section: heading,
    subsection: subheading,
    body: text,
    label: text,
    cell: { ...text, tabular: true },
    columnTitle: { ...text, bold: true },
    caption: text,
    small: voice(18, 1.2),
    first: text,
    firstTitle: heading,
    code: text,
    telephone: { ...voice(28, 1.2), bold: true, tabular: true },
    note: text,
    tick: { ...voice(18, 1.2), tabular: true },
  };
}

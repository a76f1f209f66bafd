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

/**
 * One base size per reader: an owner reads at a kitchen table, tired; a learner at a desk.
 * @param size share of that size
 */
export function typeScale(reader: Handout['reader'], size = 1): TypeScale {
  const base = (reader === 'owner' ? 10.4 : 10) * size;
  const voice = (share: number, line: number, colour: string = inks.ink): Voice => ({
    size: base * share,
    leading: base * share * line,
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

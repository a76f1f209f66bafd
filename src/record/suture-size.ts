import { z } from 'zod';
import { refusal } from './refusal.js';

/** The diameter of a strand: its metric size is the least diameter in tenths of a millimetre. */
export interface Gauge {
  readonly metric: number;
  /** mm, from and to. */
  readonly diameter: readonly [number, number];
}

/**
 * Sizes of the United States Pharmacopeia for synthetic strands, and not for catgut.
 * Source: European Pharmacopoeia classes beside USP sizes, table at t-injecta.cz/sici-materialy-evropsky-lekopis; the
 * metric sizes from 8-0 to 2-0 agree with the chart at desmo.care/compare/suture-size-chart.
 */
export const USP_SIZES = {
  '10-0': { metric: 0.2, diameter: [0.02, 0.029] },
  '9-0': { metric: 0.3, diameter: [0.03, 0.039] },
  '8-0': { metric: 0.4, diameter: [0.04, 0.049] },
  '7-0': { metric: 0.5, diameter: [0.05, 0.069] },
  '6-0': { metric: 0.7, diameter: [0.07, 0.099] },
  '5-0': { metric: 1, diameter: [0.1, 0.149] },
  '4-0': { metric: 1.5, diameter: [0.15, 0.199] },
  '3-0': { metric: 2, diameter: [0.2, 0.249] },
  '2-0': { metric: 3, diameter: [0.3, 0.349] },
  '0': { metric: 3.5, diameter: [0.35, 0.399] },
  '1': { metric: 4, diameter: [0.4, 0.499] },
  '2': { metric: 5, diameter: [0.5, 0.599] },
  '3': { metric: 6, diameter: [0.6, 0.699] },
  '4': { metric: 6, diameter: [0.6, 0.699] },
  '5': { metric: 7, diameter: [0.7, 0.799] },
  '6': { metric: 8, diameter: [0.8, 0.899] },
} as const satisfies Readonly<Record<string, Gauge>>;
export type UspSize = keyof typeof USP_SIZES;

/** Fine to thick. */
const SIZES = Object.keys(USP_SIZES).sort((a, b) => rank(a) - rank(b)) as UspSize[];

/** Sizes that YAML reads as numbers where they stand without quotes. */
const BARE = SIZES.filter((size) => !size.endsWith('-0')).map(Number);

/** A USP size such as `3-0`; other spellings are refused with the size that they may mean. */
export const sutureSize = (meaning: string) => {
  const expected = `${meaning}, one of: ${SIZES.join(', ')}`;
  return z
    .union([z.string(), z.number()], { error: expected })
    .meta({ description: expected, enum: [...SIZES, ...BARE] })
    .transform((found, context): UspSize => {
      const written = String(found);
      const size = known(written);
      if (size !== null) return size;
      const meant = meantSize(written);
      context.addIssue(
        refusal(
          'an unknown suture size',
          written,
          expected,
          meant ? `Did you mean "${meant}"?` : 'Use one of those listed.',
        ),
      );
      return z.NEVER;
    });
};

/** What `3/0`, `000`, `1-0` or `USP 3-0` may mean; null for what is no spelling of a size: one letter off is another strand. */
function meantSize(written: string): UspSize | null {
  const plain = written.replace(/usp|#|\s/gi, '');
  if (/^0+$/.test(plain)) return known(plain.length === 1 ? '0' : `${plain.length}-0`);
  const zeros = /^(\d+)[-/.]0$/.exec(plain);
  return zeros ? known(zeros[1] === '1' ? '0' : `${zeros[1]}-0`) : known(plain);
}

const known = (size: string): UspSize | null => SIZES.find((other) => other === size) ?? null;

function rank(size: string): number {
  return size.endsWith('-0') ? -Number(size.slice(0, -2)) : Number(size);
}

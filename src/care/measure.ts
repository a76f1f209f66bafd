import { isSmeared, type Smeared } from '../record/medicine-schema.js';
import { roundTo } from '../units/round.js';

/** A syringe by what it holds and by the step of its scale, both in mL. */
export interface Syringe {
  readonly capacity: number;
  readonly graduation: number;
}

/**
 * Syringes that a clinic hands out, small to large. Scales differ from maker to maker.
 * Source: 1, 3, 5 and 10 mL after the Royal Melbourne Institute of Technology, as told at
 * pt.411answers.com/a/como-se-le-uma-seringa.html; 20 and 60 mL: common practice.
 */
export const SYRINGES: readonly Syringe[] = [
  { capacity: 1, graduation: 0.01 },
  { capacity: 3, graduation: 0.1 },
  { capacity: 5, graduation: 0.2 },
  { capacity: 10, graduation: 0.2 },
  { capacity: 20, graduation: 1 },
  { capacity: 60, graduation: 1 },
];

/** Parts of a tablet that can be cut by hand: halves and quarters. Source: common practice. */
const SMALLEST_PART = 1 / 4;

/** How an amount is measured at home. */
export type Measure =
  /** An ointment or a cream, by eye. */
  | { readonly kind: 'smeared' }
  /** Whole tablets, capsules or drops. */
  | { readonly kind: 'whole' }
  /** Tablets to be cut. */
  | { readonly kind: 'cut'; readonly into: 'halves' | 'quarters' }
  | { readonly kind: 'syringe'; readonly syringe: Syringe };

/** Why an amount cannot be measured, with the nearest amounts that can. */
export interface Unmeasurable {
  readonly kind: 'unmeasurable';
  readonly expected: string;
  readonly nearest: readonly number[];
}

type Form = 'tablet' | 'capsule' | 'mL' | 'drop' | Smeared;

/** The finest step of a strip that a ruler shows, cm. Not a clinical number. */
const STRIP_STEP = 0.1;

/** How an amount above zero is measured at home, or why it cannot be. */
export function measureOf(amount: number, form: Form, mayCut: boolean): Measure | Unmeasurable {
  if (form === 'mL') return inSyringe(amount);
  if (form === 'thin layer') {
    return amount === 1
      ? { kind: 'smeared' }
      : { kind: 'unmeasurable', expected: 'one thin layer', nearest: [1] };
  }
  if (isSmeared(form)) {
    const [step, expected] =
      form === 'cm' ? [STRIP_STEP, 'a strip in tenths of a cm'] : [1, 'whole peas'];
    return isMultiple(amount, step) ? { kind: 'smeared' } : cannot(amount, step, expected);
  }
  if (isMultiple(amount, 1)) return { kind: 'whole' };
  if (form === 'tablet' && mayCut) {
    if (isMultiple(amount, 2 * SMALLEST_PART)) return { kind: 'cut', into: 'halves' };
    if (isMultiple(amount, SMALLEST_PART)) return { kind: 'cut', into: 'quarters' };
    return cannot(amount, SMALLEST_PART, 'whole, half or quarter tablets');
  }
  return cannot(
    amount,
    1,
    form === 'tablet' ? 'whole tablets, as this one must not be cut' : `whole ${form}s`,
  );
}

/** The smallest syringe that takes the amount and has a line for it. */
function inSyringe(amount: number): Measure | Unmeasurable {
  const fits = SYRINGES.filter(({ capacity }) => amount <= capacity);
  const syringe = fits.find(({ graduation }) => isMultiple(amount, graduation));
  if (syringe) return { kind: 'syringe', syringe };
  const [smallest] = fits;
  if (!smallest) {
    const { capacity } = SYRINGES.at(-1) as Syringe;
    return {
      kind: 'unmeasurable',
      expected: `at most the ${capacity} mL of the largest syringe`,
      nearest: [capacity],
    };
  }
  const { capacity, graduation } = smallest;
  return cannot(
    amount,
    graduation,
    `an amount with a line on a syringe; one of ${capacity} mL has a line every ${graduation} mL`,
  );
}

function cannot(amount: number, step: number, expected: string): Unmeasurable {
  const steps = Math.floor(amount / step);
  const nearest = [steps * step, (steps + 1) * step].map((other) => roundTo(other, 4));
  return { kind: 'unmeasurable', expected, nearest: nearest.filter((other) => other > 0) };
}

/** Whether an amount is so many whole steps; the last digits of a binary fraction do not count. */
function isMultiple(amount: number, step: number): boolean {
  const steps = amount / step;
  return Math.round(steps) > 0 && Math.abs(steps - Math.round(steps)) < 1e-6;
}

import type { HomeText } from '../record/case-schema.js';
import { sameDrug } from '../record/formulary-schema.js';
import { isSmeared, type MedicineText } from '../record/medicine-schema.js';
import type { Problem } from '../record/problem.js';
import { writtenAmount } from '../record/quantity.js';
import type { Located } from '../record/yaml-file.js';
import { roundTo } from '../units/round.js';
import { amountAtOnce, DROPS_IN_ML, isDropped } from './one-amount.js';

/** What was handed out of one medicine in one strength, for all its steps together. */
export interface Supply {
  /** Indices of the medicines that are given from it, ascending. */
  readonly steps: readonly number[];
  /** Those of them that tell what was handed out. */
  readonly told: readonly number[];
  /** What all their doses need and what was handed out, in the unit of the strength; null of what is smeared on, and where nothing is told. */
  readonly needed: number | null;
  readonly handed: number | null;
}

/** The supplies of a case, in the order of their first steps. A step that tells nothing is given from what another tells. */
function suppliesOf(medicines: readonly MedicineText[]): Supply[] {
  const first = medicines.map((one) => medicines.findIndex((other) => sameSupply(one, other)));
  return [...new Set(first)].map((leader): Supply => {
    const steps = medicines.flatMap((_, index) => (first[index] === leader ? [index] : []));
    const all = steps.map((index) => medicines[index] as MedicineText);
    const told = steps.filter((index) => medicines[index]?.dispensed !== undefined);
    return {
      steps,
      told,
      needed: all.some(({ give }) => isSmeared(give.unit)) ? null : sum(all.map(need)),
      handed: told.length === 0 ? null : sum(all.map(({ dispensed }) => dispensed?.value ?? 0)),
    };
  });
}

/** The supply that a medicine is given from. */
export const supplyOf = (medicines: readonly MedicineText[], index: number): Supply =>
  suppliesOf(medicines).find(({ steps }) => steps.includes(index)) as Supply;

/** Supplies that run out before the last dose. */
export const shortSupplies = ({ value, at }: Located<HomeText>): Problem[] =>
  suppliesOf(value.home.medicines).flatMap(({ steps, told, needed, handed }): Problem[] => {
    if (handed === null || needed === null || handed >= needed) return [];
    const [only, ...others] = steps.map((index) => value.home.medicines[index] as MedicineText) as [
      MedicineText,
      ...MedicineText[],
    ];
    const { give, doses, strength } = only;
    return [
      {
        kind: 'too little dispensed',
        ...at('home', 'medicines', told.at(-1) as number, 'dispensed'),
        found:
          told.length === 1
            ? dispensedIn(value, told[0] as number)
            : `${writtenAmount(handed, strength.per)} in all`,
        expected:
          others.length === 0
            ? `at least ${writtenAmount(roundTo(amountAtOnce(only) * doses, 4), give.unit)} for ${doses} ${doses === 1 ? 'dose' : 'doses'} of ${give.written}`
            : `at least ${writtenAmount(needed, strength.per)} for all ${steps.length} steps of ${only.drug}`,
        mend: 'Hand out more, or mend the number of doses.',
      },
    ];
  });

const dispensedIn = ({ home }: HomeText, index: number): string =>
  home.medicines[index]?.dispensed?.written ?? '';

const sameSupply = (one: MedicineText, other: MedicineText): boolean =>
  sameDrug(one.drug, other.drug) &&
  one.strength.value === other.strength.value &&
  one.strength.unit === other.strength.unit &&
  one.strength.per === other.strength.per;

/** What the doses of one step need, in the unit of the strength. */
const need = (medicine: MedicineText): number =>
  (amountAtOnce(medicine) * medicine.doses) / (isDropped(medicine) ? DROPS_IN_ML : 1);

const sum = (all: readonly number[]): number =>
  roundTo(
    all.reduce((total, one) => total + one, 0),
    4,
  );

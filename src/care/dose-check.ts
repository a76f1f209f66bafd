import type { Temporal } from 'temporal-polyfill';
import {
  type Formulary,
  type FormularyDrug,
  type Span,
  sameDrug,
} from '../record/formulary-schema.js';
import type { ProblemKind } from '../record/problem-kind.js';
import type { Refusal } from '../record/refusal.js';
import type { ClinicRoute, Species } from '../record/vocabulary.js';
import { roundTo } from '../units/round.js';
import { drugClass, meantDrug } from './drug-class.js';

/** A medicine to be given at home, by what its dose comes to. */
export interface PlannedMedicine {
  readonly drug: string;
  /** mg per kg of body weight at one time, and the most within 24 hours. */
  readonly perKilogram: number;
  readonly perKilogramDay: number;
  /** Shortest time from dose to dose, in hours. */
  readonly hours: number;
  /** The last clinic dose that the plan knows of. */
  readonly lastGiven: Temporal.ZonedDateTime | null;
  /** Ascending, at least one. */
  readonly doses: readonly Temporal.ZonedDateTime[];
}

/** A dose that was given in the clinic; mg per kg where the record gives a mass. */
export interface GivenDose {
  readonly drug: string;
  readonly route: ClinicRoute;
  readonly at: Temporal.ZonedDateTime;
  readonly perKilogram: number | null;
}

/** What a dose in the clinic is checked by. */
export type ClinicDose = Pick<GivenDose, 'drug' | 'route' | 'perKilogram'>;

/** What speaks against a plan. */
export interface Finding extends Refusal {
  /** Index of the medicine. */
  readonly medicine: number;
  /** `stop` where nothing may be printed, `warn` where a veterinarian may have meant it. */
  readonly weight: 'stop' | 'warn';
  readonly field: 'drug' | 'give' | 'rhythm';
}

/** What speaks against a dose that was given in the clinic. */
export interface ClinicFinding extends Refusal {
  /** Index of the dose. */
  readonly dose: number;
  readonly field: 'drug' | 'dose';
}

/** The row that a medicine was checked against, or why there is none. */
export type Checked =
  | {
      readonly kind: 'checked';
      readonly dose: Span;
      /** mg per kg in 24 hours. */
      readonly mostInDay: number;
      readonly hours: Span;
      readonly source: string;
      readonly notes: string | null;
    }
  | Never
  | NotChecked;

/** A ban of the formulary. */
interface Never {
  readonly kind: 'never';
  readonly why: string;
}

/** Nothing to check against. */
interface NotChecked {
  readonly kind: 'not checked';
  /** `the formulary has no row for carprofen` */
  readonly lack: string;
  /** The drug that the name may be a slip for. */
  readonly meant: string | null;
}

/** The figure that a dose in the clinic was checked against, or why there is none. */
export type CheckedInClinic =
  | { readonly kind: 'checked'; readonly dose: Span; readonly source: string }
  | Never
  | NotChecked;

/** Why nothing was checked, as a sentence. */
export const whyNotChecked = ({ lack, meant }: NotChecked): string =>
  `Not checked: ${lack}${meant === null ? '.' : `; did you mean "${meant}"?`}`;

type SpeciesRow = NonNullable<FormularyDrug['species'][Species]>;

/** What the formulary says of a drug for a species. */
function speciesRow(
  formulary: Formulary | null,
  drug: string,
  species: Species,
):
  | { readonly row: SpeciesRow; readonly source: string; readonly notes: string | null }
  | Never
  | NotChecked {
  const without = (lack: string): NotChecked => ({
    kind: 'not checked',
    lack,
    meant: meantDrug(formulary, drug),
  });
  if (!formulary) return without('the clinic has no formulary.yaml');
  const found = rowOf(formulary, drug);
  if (!found) return without(`the formulary has no row for ${drug}`);
  const row = found.species[species];
  if (!row) return without(`the formulary says nothing of ${drug} for a ${species}`);
  if (row.never !== undefined) return { kind: 'never', why: row.never };
  return { row, source: found.source, notes: found.notes ?? null };
}

/** The row of a medicine for a species. */
export function rowFor(formulary: Formulary | null, drug: string, species: Species): Checked {
  const found = speciesRow(formulary, drug, species);
  if ('kind' in found) return found;
  const { row, source, notes } = found;
  if (!row.dose) {
    const lack = `the formulary has ${drug} for a ${species} in the clinic only`;
    return { kind: 'not checked', lack, meant: null };
  }
  return {
    kind: 'checked',
    dose: row.dose,
    mostInDay: (row['most a day'] as Span)[1],
    hours: row.every as Span,
    source,
    notes,
  };
}

/** The figure for a dose in the clinic. What is given at home says nothing of it, nor one route of another. */
export function rowInClinic(
  formulary: Formulary | null,
  { drug, route, perKilogram }: ClinicDose,
  species: Species,
): CheckedInClinic {
  const found = speciesRow(formulary, drug, species);
  if ('kind' in found) return found;
  const dose = found.row['in the clinic']?.[route];
  const lack =
    perKilogram === null
      ? `the record gives ${drug} as a volume without its strength`
      : `the formulary has no ${route} dose of ${drug} for a ${species} in the clinic`;
  return dose && perKilogram !== null
    ? { kind: 'checked', dose, source: found.source }
    : { kind: 'not checked', lack, meant: null };
}

/**
 * What speaks against doses that were given in the clinic. They were given, so nothing stops: a veterinarian is asked. A
 * dose without a figure is no finding, since few formularies have every drug of an anesthesia; `rowInClinic` names it.
 */
export function checkGiven(
  formulary: Formulary | null,
  species: Species,
  given: readonly ClinicDose[],
): ClinicFinding[] {
  const mend = 'Mend it, or write "accepted because:" with the reason in this drug.';
  return given.flatMap((one, dose): ClinicFinding[] => {
    const { drug, route, perKilogram } = one;
    const row = rowInClinic(formulary, one, species);
    if (row.kind === 'never') {
      return [{ dose, field: 'drug', ...banned(drug, species, row), mend }];
    }
    if (row.kind === 'not checked' || perKilogram === null || within(perKilogram, row.dose)) {
      return [];
    }
    return [
      {
        kind: 'a dose out of its range',
        dose,
        field: 'dose',
        found: `${shown(perKilogram)} mg/kg of ${drug}, ${route}`,
        expected: `${spanned(row.dose)} mg/kg, as the formulary says of the clinic`,
        mend,
      },
    ];
  });
}

const banned = (drug: string, species: Species, { why }: Never) =>
  ({
    kind: 'a drug that the species never gets',
    found: `${drug} for a ${species}`,
    expected: `no ${drug} for a ${species}, as the formulary says: ${why}`,
  }) as const;

/**
 * Everything that speaks against medicines for home: bans, doses and intervals out of the formulary's range, and
 * medicines that clash with one another or with what was given in the clinic. Without a row a veterinarian is asked, as the
 * program knows neither doses nor bans of its own: only that two medicines of the same name are the same, and which classes
 * clash.
 */
export function checkDoses(
  formulary: Formulary | null,
  species: Species,
  planned: readonly PlannedMedicine[],
  given: readonly GivenDose[],
): Finding[] {
  return planned.flatMap((medicine, index) => {
    const row = rowFor(formulary, medicine.drug, species);
    const said: Said[] = [
      ...againstRow(row, medicine, species, drugClass(formulary, medicine.drug) !== null),
      ...againstClinic(formulary, row, medicine, given),
      ...planned.slice(0, index).flatMap((other) => againstOther(formulary, medicine, other)),
    ];
    return said.map((finding) => ({ ...finding, medicine: index }));
  });
}

type Said = Omit<Finding, 'medicine'>;

const warn = (
  kind: ProblemKind,
  field: Finding['field'],
  found: string,
  expected: string,
): Said => ({
  kind,
  weight: 'warn',
  field,
  found,
  expected,
  mend: 'Mend it, or write "accepted because:" with the reason in this medicine.',
});

/** A medicine that nothing was compared with: silence would pass for a check. */
function unchecked(
  { lack, meant }: NotChecked,
  { drug }: PlannedMedicine,
  species: Species,
  classKnown: boolean,
): Said {
  const slip = meant === null ? '' : `If ${meant} is meant, mend the name. `;
  return {
    kind: 'a medicine that nothing was checked against',
    weight: 'warn',
    field: 'drug',
    found: `${drug} for a ${species}, unchecked: not whether a ${species} may have it, not its dose, not its interval${classKnown ? '' : ', not what it clashes with'}`,
    expected: `a row to check it against; ${lack}`,
    mend: `${slip}Look up species and dose, then write its row into formulary.yaml, or "accepted because:" with the reason in this medicine.`,
  };
}

function againstRow(
  row: Checked,
  medicine: PlannedMedicine,
  species: Species,
  known: boolean,
): Said[] {
  const { drug, perKilogram, perKilogramDay, hours } = medicine;
  if (row.kind === 'not checked') return [unchecked(row, medicine, species, known)];
  if (row.kind === 'never') {
    return [
      {
        weight: 'stop',
        field: 'drug',
        ...banned(drug, species, row),
        mend: 'Choose another medicine, or mend formulary.yaml.',
      },
    ];
  }
  if (above(perKilogramDay, row.mostInDay)) {
    return [
      {
        kind: 'more than the most in a day',
        weight: 'stop',
        field: 'give',
        found: `${shown(perKilogramDay)} mg/kg of ${drug} within 24 h`,
        expected: `at most ${shown(row.mostInDay)} mg/kg a day, as the formulary says`,
        mend: 'Give less or less often, or mend formulary.yaml.',
      },
    ];
  }
  return [
    ...(within(perKilogram, row.dose)
      ? []
      : [
          warn(
            'a dose out of its range',
            'give',
            `${shown(perKilogram)} mg/kg of ${drug} at one time`,
            `${spanned(row.dose)} mg/kg, as the formulary says`,
          ),
        ]),
    ...(within(hours, row.hours)
      ? []
      : [
          warn(
            'an interval out of its range',
            'rhythm',
            `${drug} every ${shown(hours)} h`,
            `every ${spanned(row.hours)} h, as the formulary says`,
          ),
        ]),
  ];
}

/**
 * Hours within which two doses count as given on the same day. Common practice. A dose at hour 24 starts the next day of
 * its own medicine, but still comes too near to another one that clashes.
 */
const SAME_DAY = 24;

function againstClinic(
  formulary: Formulary | null,
  row: Checked,
  medicine: PlannedMedicine,
  given: readonly GivenDose[],
): Said[] {
  const first = medicine.doses[0] as Temporal.ZonedDateTime;
  const near = given.filter(({ at }) => hoursApart(at, first) <= SAME_DAY);
  const clashing = near.flatMap(({ drug }) => {
    const why = clash(formulary, drug, medicine.drug);
    const found = `${medicine.drug} within ${SAME_DAY} h of ${drug} in the clinic`;
    return why ? [warn('drugs that do not go together', 'drug', found, why)] : [];
  });
  return [
    ...forgotten(formulary, medicine, first, given),
    // A drug that was given twice in the clinic clashes once.
    ...clashing.filter(
      ({ found }, place) => clashing.findIndex((other) => other.found === found) === place,
    ),
    ...dayWithClinic(row, medicine, given),
  ];
}

/** A clinic dose of the same ingredient that the plan does not count from, and that is too near to the first home dose. */
function forgotten(
  formulary: Formulary | null,
  { drug, hours, lastGiven }: PlannedMedicine,
  first: Temporal.ZonedDateTime,
  given: readonly GivenDose[],
): Said[] {
  const known = lastGiven?.epochMilliseconds ?? Number.NEGATIVE_INFINITY;
  const missed = given
    .filter((dose) => shared(formulary, dose.drug, drug).length > 0)
    .filter(({ at }) => at.epochMilliseconds > known && hoursApart(at, first) < hours)
    .sort((a, b) => b.at.epochMilliseconds - a.at.epochMilliseconds)[0];
  if (!missed) return [];
  return [
    warn(
      'a dose in the clinic that the plan does not count',
      'drug',
      `${drug} ${roundTo(hoursApart(missed.at, first), 1)} h after ${missed.drug} in the clinic`,
      `at least the interval of ${shown(hours)} h, and "last given" at the time of that dose`,
    ),
  ];
}

/** The clinic doses and the first home doses within 24 hours together, where they come to more than a day's most. */
function dayWithClinic(
  row: Checked,
  { drug, perKilogram, doses }: PlannedMedicine,
  given: readonly GivenDose[],
): Said[] {
  if (row.kind !== 'checked') return [];
  const clinic = given.filter((dose) => sameDrug(dose.drug, drug));
  const sums = clinic.map((start) => {
    const inDay = (at: Temporal.ZonedDateTime) =>
      at.epochMilliseconds >= start.at.epochMilliseconds && hoursApart(start.at, at) < SAME_DAY;
    const home = doses.filter(inDay).length * perKilogram;
    const there = clinic.filter(({ at }) => inDay(at)).map((dose) => dose.perKilogram ?? 0);
    return home === 0 ? 0 : there.reduce((sum, dose) => sum + dose, home);
  });
  const most = Math.max(0, ...sums);
  if (!above(most, row.mostInDay)) return [];
  return [
    warn(
      'more than the most in a day',
      'give',
      `${shown(most)} mg/kg of ${drug} within 24 h, the doses in the clinic included`,
      `at most ${shown(row.mostInDay)} mg/kg a day, as the formulary says`,
    ),
  ];
}

function againstOther(
  formulary: Formulary | null,
  medicine: PlannedMedicine,
  other: PlannedMedicine,
): Said[] {
  const apart = leastHoursApart(medicine.doses, other.doses);
  if (apart > SAME_DAY) return [];
  const twice = shared(formulary, medicine.drug, other.drug);
  // One strength may follow another of the same medicine a day later.
  if (twice.length > 0 && apart === SAME_DAY) return [];
  const why =
    twice.length > 0
      ? `each ingredient in one medicine only; both hold ${twice.join(' and ')}`
      : clash(formulary, medicine.drug, other.drug);
  const found = `${medicine.drug} and ${other.drug} within ${SAME_DAY} h`;
  return why === null ? [] : [warn('drugs that do not go together', 'drug', found, why)];
}

/** Why two different medicines should not meet; null where their classes are no reason, or not known. */
function clash(formulary: Formulary | null, one: string, other: string): string | null {
  if (shared(formulary, one, other).length > 0) return null;
  const classes = [drugClass(formulary, one), drugClass(formulary, other)];
  if (classes.every((found) => found === 'NSAID')) return 'one NSAID at a time';
  return classes.includes('NSAID') && classes.includes('corticosteroid')
    ? 'no NSAID together with a corticosteroid'
    : null;
}

/** Ingredients that two medicines share; a medicine without a row is its own ingredient. */
function shared(formulary: Formulary | null, one: string, other: string): string[] {
  const others = ingredientsOf(formulary, other);
  return ingredientsOf(formulary, one).filter((ingredient) =>
    others.some((found) => sameDrug(found, ingredient)),
  );
}

const rowOf = (formulary: Formulary | null, drug: string): FormularyDrug | undefined =>
  formulary?.drugs.find((row) => sameDrug(row.drug, drug));

const ingredientsOf = (formulary: Formulary | null, drug: string): readonly string[] =>
  rowOf(formulary, drug)?.ingredients ?? [drug];

/** The shortest time between any two doses of two ascending lists. */
function leastHoursApart(
  some: readonly Temporal.ZonedDateTime[],
  others: readonly Temporal.ZonedDateTime[],
): number {
  let least = Number.POSITIVE_INFINITY;
  let i = 0;
  let j = 0;
  while (i < some.length && j < others.length) {
    const [a, b] = [some[i], others[j]] as [Temporal.ZonedDateTime, Temporal.ZonedDateTime];
    least = Math.min(least, hoursApart(a, b));
    if (a.epochMilliseconds < b.epochMilliseconds) i++;
    else j++;
  }
  return least;
}

/**
 * Time between two doses, by the clock or elapsed, whichever is longer: a clock change takes an hour from a night, and a
 * dose at the same time of the next day is still a day later.
 */
function hoursApart(a: Temporal.ZonedDateTime, b: Temporal.ZonedDateTime): number {
  const [from, to] = a.epochMilliseconds <= b.epochMilliseconds ? [a, b] : [b, a];
  const elapsed = (to.epochMilliseconds - from.epochMilliseconds) / 3_600_000;
  if (from.timeZoneId !== to.timeZoneId) return elapsed;
  return elapsed + Math.max(0, to.offsetNanoseconds - from.offsetNanoseconds) / 3600e9;
}

/** More by a margin that no rounding of binary fractions makes. */
const above = (value: number, limit: number) => value > limit * (1 + 1e-9);
const within = (value: number, [low, high]: Span) => !above(value, high) && !above(low, value);

const shown = (value: number) => String(roundTo(value, 3));
const spanned = ([low, high]: Span) =>
  low === high ? shown(low) : `${shown(low)} to ${shown(high)}`;

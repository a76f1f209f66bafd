import type { Formulary, Span } from '../../record/formulary-schema.js';
import type { Species } from '../../record/vocabulary.js';
import { drugClass } from '../drug-class.js';
import { above, shown, spanned, within } from './amounts.js';
import { banned } from './banned.js';
import { againstClinic } from './beside-clinic-doses.js';
import { leastHoursApart, SAME_DAY } from './between-doses.js';
import { ofOneCourse, rowForStep } from './course-step.js';
import { type Finding, type Said, warn } from './finding.js';
import { unfitting } from './fitting-route.js';
import { type Checked, type NotChecked, rowFor } from './formulary-row.js';
import { neverAsNeeded } from './never-as-needed.js';
import type { GivenDose, PlannedMedicine } from './planned-medicine.js';
import { dayTogether } from './same-drug.js';
import { clash, clashAtHome, shared } from './shared-ingredients.js';
import { toldOtherwise } from './told-purpose.js';
import { withoutFood } from './with-food.js';

/**
 * Everything that speaks against medicines for home: bans, doses and intervals out of the formulary's range, and
 * medicines that clash with one another or with what was given in the clinic, whose owner is told to watch for other things,
 * or that would be given in a way which hardly fits them. Without a row a veterinarian is asked, as the
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
    const known = drugClass(formulary, medicine.drug);
    const before = planned.slice(0, index);
    const said: Said[] = [
      ...againstRow(rowForStep(row, medicine, before), medicine, species, known !== null),
      ...toldOtherwise(known, species, medicine),
      ...withoutFood(known, species, medicine),
      ...unfitting(medicine),
      ...neverAsNeeded(known, medicine),
      ...againstClinic(formulary, row, medicine, given),
      ...once(before.flatMap((other) => againstOther(formulary, medicine, other))),
      ...dayTogether(row, medicine, planned.slice(0, index)),
    ];
    return said.map((finding) => ({ ...finding, medicine: index }));
  });
}

/** The steps of one course clash once with what they clash with. */
const once = (all: readonly Said[]): Said[] =>
  all.filter(({ found }, place) => all.findIndex((other) => other.found === found) === place);

const UNCHECKED = 'a medicine that nothing was checked against';

/** A medicine that nothing was compared with: silence would pass for a check. */
function unchecked(
  { lack, meant }: NotChecked,
  { drug }: PlannedMedicine,
  species: Species,
  classKnown: boolean,
): Said {
  const slip = meant === null ? '' : `If ${meant} is meant, mend the name. `;
  return {
    kind: UNCHECKED,
    weight: 'warn',
    field: 'drug',
    found: `${drug} for a ${species}, unchecked: not whether a ${species} may have it, not its dose, not its interval${classKnown ? '' : ', not what it clashes with'}`,
    expected: `a row to check it against; ${lack}`,
    mend: `${slip}Look up species and dose, then write its row into formulary.yaml`,
  };
}

/** An ointment whose row tells mg per kg, which nobody can hold a strip against. */
const withoutMass = (drug: string, species: Species): Said => ({
  kind: UNCHECKED,
  weight: 'warn',
  field: 'give',
  found: `${drug} for a ${species}, its amount unchecked`,
  expected:
    'an amount with a mass, to hold against the mg/kg of the formulary; what is smeared on has none',
  mend: 'Mend it where so much of it is not usual',
});

function againstRow(
  row: Checked,
  medicine: PlannedMedicine,
  species: Species,
  known: boolean,
): Said[] {
  const { drug, perKilogram, perKilogramDay } = medicine;
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
  const interval = againstInterval(medicine, row.hours);
  if (perKilogram === null || perKilogramDay === null) {
    return [withoutMass(drug, species), ...interval];
  }
  if (above(perKilogramDay, row.mostInDay)) {
    return [
      {
        kind: 'more than the most in a day',
        weight: 'stop',
        field: 'give',
        found: `${shown(perKilogramDay)} mg/kg of ${drug} within 24 h`,
        expected: `at most ${shown(row.mostInDay)} mg/kg a day, as the formulary says`,
        mend: 'Look at weight, strength and amount again. If they are right, give less or less often, or mend formulary.yaml.',
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
    ...interval,
  ];
}

/** A time from dose to dose out of the usual range. Of a medicine as needed only the least is told, and a longer one is as good. */
function againstInterval({ drug, hours, asNeededUntil }: PlannedMedicine, usual: Span): Said[] {
  const told = (found: string, expected: string) => [
    warn('an interval out of its range', 'rhythm', found, `${expected}, as the formulary says`),
  ];
  if (asNeededUntil !== null) {
    return above(usual[0], hours)
      ? told(`${drug} at least ${shown(hours)} h apart`, `at least ${shown(usual[0])} h apart`)
      : [];
  }
  return within(hours, usual)
    ? []
    : told(`${drug} every ${shown(hours)} h`, `every ${spanned(usual)} h`);
}

function againstOther(
  formulary: Formulary | null,
  medicine: PlannedMedicine,
  other: PlannedMedicine,
): Said[] {
  const apart = leastHoursApart(medicine, other);
  if (apart > SAME_DAY) return [];
  const twice = shared(formulary, medicine.drug, other.drug);
  // One strength may follow another of the same medicine a day later, and one step of a course another.
  if (twice.length > 0 && (apart === SAME_DAY || ofOneCourse(medicine, other))) return [];
  const why =
    twice.length > 0
      ? `each ingredient in one medicine only; both hold ${twice.join(' and ')}`
      : (clash(formulary, medicine.drug, other.drug) ??
        clashAtHome(formulary, medicine.drug, other.drug));
  const found = `${medicine.drug} and ${other.drug} within ${SAME_DAY} h`;
  return why === null ? [] : [warn('drugs that do not go together', 'drug', found, why)];
}

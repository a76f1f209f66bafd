import { Temporal } from 'temporal-polyfill';
import { isUsualAge, OLDEST } from '../care/age.js';
import { otherSpecies } from '../care/breed-words.js';
import { misreadMicrochip } from '../care/microchip.js';
import { misfits } from '../care/neutering.js';
import { isUsualWeight, USUAL_WEIGHT } from '../care/weight.js';
import type { CaseText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import { toKilogram } from '../units/convert.js';
import { roundTo } from '../units/round.js';
import { asked, partOf, type Question } from './asked.js';
import type { Age, PatientFacts } from './case-facts.js';
import { computed, type Fact, recorded } from './fact.js';

/** Species, breed, sex, age and weight (kg) of the patient, as the record has them. */
export function patientFacts({ value, where }: Located<CaseText>): PatientFacts {
  const { patient } = value;
  const field = (name: string) => where('patient', name);
  return {
    species: recorded(patient.species, field('species')),
    breed: recorded(patient.breed, field('breed')),
    sex: recorded(patient.sex, field('sex')),
    neutered: recorded(patient.neutered === 'yes', field('neutered')),
    age: ageFact(patient, value.surgery.date, where),
    weight: computed(
      toKilogram(patient.weight.value, patient.weight.unit),
      patient.weight.unit === 'kg' ? 'recorded' : `${patient.weight.written} in kilograms`,
      field('weight'),
    ),
  };
}

function ageFact(
  patient: CaseText['patient'],
  surgery: string,
  where: Located<CaseText>['where'],
): Fact<Age> {
  if (patient.born !== undefined) {
    return computed(
      ageOn(patient.born, surgery),
      'whole calendar time from birth to surgery',
      where('patient', 'born'),
      where('surgery', 'date'),
    );
  }
  // `contradictions` has made sure that one of the two is there.
  const age = patient.age as NonNullable<typeof patient.age>;
  return recorded({ count: age.value, unit: age.unit }, where('patient', 'age'));
}

/** What a veterinarian is asked about the patient: all doses rest on its weight. */
export function patientWarnings(
  { value, at }: Located<CaseText>,
  { species, weight, sex, neutered, age, breed }: PatientFacts,
): Question[] {
  const { procedure } = value.surgery;
  const warnings: Question[] = [];
  if (!isUsualWeight(species.value, weight.value)) {
    const [least, most] = USUAL_WEIGHT[species.value];
    const { written, unit } = value.patient.weight;
    warnings.push({
      ...asked('a weight that is unusual for the species', partOf.patient(value)),
      ...at('patient', 'weight'),
      found: `a ${species.value} of ${written}${unit === 'kg' ? '' : `, ${roundTo(weight.value, 2)} kg`}`,
      expected: `${least} to ${most} kg (common practice); every dose per kilogram rests on it`,
    });
  }
  if (!isUsualAge(species.value, age.value)) {
    const field = value.patient.born === undefined ? 'age' : 'born';
    warnings.push({
      ...asked('an age that is unusual for the species', partOf.patient(value)),
      ...at('patient', field),
      found: `a ${species.value} of ${roundTo(age.value.count, 1)} ${age.value.unit}`,
      expected: `at most ${OLDEST[species.value]} years (from memory, unverified)`,
    });
  }
  const other = otherSpecies(species.value, breed.value);
  if (other !== null) {
    warnings.push({
      ...asked('a breed of another species', partOf.patient(value), 'Mend species or breed'),
      ...at('patient', 'breed'),
      found: `a ${species.value} of the breed "${breed.value}", which is one of a ${other}`,
      expected: `a breed of a ${species.value}, as every dose is checked for that species`,
    });
  }
  const { microchip } = value.patient;
  const characters = microchip === undefined ? null : misreadMicrochip(microchip);
  if (characters !== null) {
    warnings.push({
      ...asked(
        'a microchip number of another length',
        partOf.patient(value),
        'Read the chip again and mend the number',
      ),
      ...at('patient', 'microchip'),
      found: `"${microchip}", ${characters} characters`,
      expected:
        '15 digits (ISO 11784), or the 9 or 10 characters of an older chip (from memory, unverified)',
    });
  }
  const patient = { sex: sex.value, neutered: neutered.value };
  for (const misfit of misfits(procedure, patient)) {
    warnings.push({
      ...asked(
        'a procedure that does not fit the patient',
        partOf.patient(value),
        'Mend the procedure, "sex" or "neutered"',
      ),
      ...at('surgery', 'procedure'),
      found:
        misfit.kind === 'sex'
          ? `${procedure} of a ${sex.value} ${species.value}`
          : `${procedure} of a ${species.value} that was neutered before this surgery`,
      expected:
        misfit.kind === 'sex'
          ? `${procedure} of a ${misfit.expected}`
          : `${procedure} of a patient with "neutered: no"`,
    });
  }
  return warnings;
}

/** Age in whole years from two years on, in whole months from two months on, else in whole weeks. */
export function ageOn(born: string, day: string): Age {
  const birth = Temporal.PlainDate.from(born);
  const years = birth.until(day, { largestUnit: 'years' }).years;
  if (years >= 2) return { count: years, unit: 'years' };
  const months = birth.until(day, { largestUnit: 'months' }).months;
  if (months >= 2) return { count: months, unit: 'months' };
  return { count: birth.until(day, { largestUnit: 'weeks' }).weeks, unit: 'weeks' };
}

import { Temporal } from 'temporal-polyfill';
import type { CaseText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import { toKilogram } from '../units/convert.js';
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

/** Age in whole years from two years on, in whole months from two months on, else in whole weeks. */
export function ageOn(born: string, day: string): Age {
  const birth = Temporal.PlainDate.from(born);
  const years = birth.until(day, { largestUnit: 'years' }).years;
  if (years >= 2) return { count: years, unit: 'years' };
  const months = birth.until(day, { largestUnit: 'months' }).months;
  if (months >= 2) return { count: months, unit: 'months' };
  return { count: birth.until(day, { largestUnit: 'weeks' }).weeks, unit: 'weeks' };
}

import type { Told } from './told.js';

/** An age that is told twice or not at all, a birth after the surgery. */
export function ofThePatient({ value, add }: Told): void {
  const day = value.surgery.date;
  if (value.patient.born === undefined && value.patient.age === undefined) {
    add(
      'an age that is not told once',
      ['patient', 'born'],
      'nothing',
      'a date of birth or an age',
      'Add "born:" or "age:".',
    );
  }
  if (value.patient.born !== undefined && value.patient.age !== undefined) {
    add(
      'an age that is not told once',
      ['patient', 'age'],
      'both a date of birth and an age',
      'one of them',
      'Remove "age:".',
    );
  }
  if (value.patient.born !== undefined && value.patient.born > day) {
    add(
      'moments out of order',
      ['patient', 'born'],
      value.patient.born,
      `a day not later than the surgery on ${day}`,
      'Mend one of the two dates.',
    );
  }
}

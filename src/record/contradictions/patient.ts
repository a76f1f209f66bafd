import type { Told } from './told.js';

/** An age that is told twice or not at all, a birth after the surgery, a death. */
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
  const died = value.events.findIndex(({ what }) => what === 'death');
  if (died >= 0) {
    add(
      'a patient that died',
      ['events', died, 'what'],
      'a death',
      'a patient that goes home, as every sheet of this program is for care at home',
      'Speak and write to the owner yourself, and take the folder out of the cases; nothing is printed of it.',
    );
  }
}

import type { Told } from './told.js';

/**
 * Hours before the anesthesia in which what was done and given still belongs to it; earlier than that a date is wrong.
 * Not a clinical number.
 */
const LONGEST_BEFORE = 48;

/** Hours that no anesthesia lasts: a day that was written one too late shows. Own choice, not a clinical number. */
const LONGEST_ANESTHESIA = 18;

/** Events of which the second ends what the first begins. */
const PAIRS = [
  ['induction', 'extubation'],
  ['intubation', 'extubation'],
  ['ventilator on', 'ventilator off'],
  ['first incision', 'closure'],
  ['first incision', 'end of surgery'],
  ['bleeding', 'bleeding stopped'],
] as const;

/** Moments of anesthesia and surgery out of order, of another day, or told in two ways. */
export function ofTimes({ value, time, earlier, add }: Told): void {
  const begin = value.anesthesia.begin;
  if (!earlier(begin, value.anesthesia.end)) {
    add(
      'moments out of order',
      ['anesthesia', 'end'],
      value.anesthesia.end,
      `a time after the start of anesthesia at ${begin}`,
      'After midnight, write the date as well: YYYY-MM-DD HH:MM.',
    );
  }
  const lasted = time(begin).until(time(value.anesthesia.end)).total('hours');
  if (lasted > LONGEST_ANESTHESIA) {
    add(
      'moments out of order',
      ['anesthesia', 'end'],
      value.anesthesia.end,
      `a time at most ${LONGEST_ANESTHESIA} hours after the start of anesthesia at ${begin}`,
      'Mend the date or the time.',
    );
  }
  const { begin: cut, end: done, discharge } = value.surgery;
  if (cut !== undefined && earlier(cut, begin)) {
    add(
      'moments out of order',
      ['surgery', 'begin'],
      cut,
      `a time after the start of anesthesia at ${begin}`,
      'Mend one of the two.',
    );
  }
  if (cut !== undefined && done !== undefined && !earlier(cut, done)) {
    add(
      'moments out of order',
      ['surgery', 'end'],
      done,
      `a time after the first incision at ${cut}`,
      'Mend one of the two.',
    );
  }
  if (done !== undefined && earlier(value.anesthesia.end, done)) {
    add(
      'moments out of order',
      ['surgery', 'end'],
      done,
      `a time not after the end of anesthesia at ${value.anesthesia.end}`,
      'Mend one of the two.',
    );
  }
  if (discharge !== undefined && earlier(discharge, value.anesthesia.end)) {
    add(
      'moments out of order',
      ['surgery', 'discharge'],
      discharge,
      `a time after the end of anesthesia at ${value.anesthesia.end}`,
      'Mend the time, or write the date as well.',
    );
  }
  const inTheClinic = [
    ...value.anesthesia.drugs.map(({ at: told }, index) => ({
      told,
      path: ['anesthesia', 'drugs', index, 'at'],
    })),
    ...value.events.map(({ at: told }, index) => ({ told, path: ['events', index, 'at'] })),
  ];
  for (const { told, path } of inTheClinic) {
    const early = time(told).until(time(begin)).total('hours') > LONGEST_BEFORE;
    if (!early && (discharge === undefined || !earlier(discharge, told))) continue;
    add(
      'moments out of order',
      path,
      told,
      early
        ? `a time at most ${LONGEST_BEFORE} hours before the start of anesthesia at ${begin}`
        : `a time before the patient goes home at ${discharge}`,
      'Mend the time or the date.',
    );
  }
  for (const [begun, over] of PAIRS) {
    const begins = value.events.filter(({ what }) => what === begun);
    const [first] = begins.map(({ at: told }) => told).sort((a, b) => (earlier(a, b) ? -1 : 1));
    if (first === undefined) continue;
    for (const [index, { what, at: told }] of value.events.entries()) {
      if (what !== over || !earlier(told, first)) continue;
      add(
        'moments out of order',
        ['events', index, 'at'],
        `${over} at ${told}`,
        `a time not before ${begun} at ${first}`,
        'Mend one of the two.',
      );
    }
  }
  for (const [what, field] of [
    ['first incision', 'begin'],
    ['end of surgery', 'end'],
  ] as const) {
    const told = value.surgery[field];
    const index = value.events.findIndex((event) => event.what === what);
    const at = value.events[index]?.at;
    if (told === undefined || at === undefined) continue;
    if (Math.abs(time(told).until(time(at)).total('minutes')) < 1) continue;
    add(
      'a moment told in two ways',
      ['events', index, 'at'],
      `${what} at ${at}`,
      `${told}, as surgery.${field} says`,
      'Mend one of the two, or leave the event out: it follows from the other.',
    );
  }
}

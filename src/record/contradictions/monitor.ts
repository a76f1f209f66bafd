import type { Told } from './told.js';

/** Minutes after the anesthesia in which a strip may still be of it, while the patient wakes. Own choice, not a clinical number. */
const WAKING = 60;

/** Breathing, strips and sensors against the times of the anesthesia. */
export function ofTheMonitor({ value, time, earlier, add }: Told): void {
  const begin = value.anesthesia.begin;
  if (value.anesthesia.breathing === 'spontaneous' && value.anesthesia['ventilator rate']) {
    add(
      'a ventilator rate without a ventilator',
      ['anesthesia', 'ventilator rate'],
      value.anesthesia['ventilator rate'].written,
      'no ventilator rate, as the patient breathes by itself',
      'Remove it, or write "breathing: ventilator".',
    );
  }
  for (const [index, strip] of value.monitor.strips.entries()) {
    if (strip.begin !== undefined && earlier(strip.begin, begin)) {
      add(
        'moments out of order',
        ['monitor', 'strips', index, 'begin'],
        strip.begin,
        `a time after the start of anesthesia at ${begin}`,
        'Mend one of the two.',
      );
    }
    const { end } = value.anesthesia;
    const late =
      strip.begin !== undefined && time(end).until(time(strip.begin)).total('minutes') > WAKING;
    if (strip.begin !== undefined && late) {
      add(
        'moments out of order',
        ['monitor', 'strips', index, 'begin'],
        strip.begin,
        `a time at most ${WAKING} minutes after the end of anesthesia at ${end}, as strip and readings are told side by side`,
        'Mend one of the two; a strip of another time belongs to a case of its own.',
      );
    }
  }
  for (const [index, { from, to }] of value.monitor['off patient'].entries()) {
    if (from !== undefined && to !== undefined && earlier(to, from)) {
      add(
        'moments out of order',
        ['monitor', 'off patient', index, 'to'],
        to,
        `a time after ${from}, from when the sensor was off`,
        'Mend one of the two; after midnight, write the date as well.',
      );
    }
  }
}

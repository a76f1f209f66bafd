import type { CaseText } from '../record/case-schema.js';
import { bad, good, type Outcome } from '../record/problem.js';
import type { VitalsTable } from '../record/vitals-file.js';
import type { Located } from '../record/yaml-file.js';
import { asked, partOf, type Question } from './asked.js';
import type { Timeline } from './timeline.js';

/**
 * Minutes before and after the anesthesia from which readings are still taken for granted: a patient is watched while it is
 * made ready and while it wakes. A choice of the method, not a clinical number.
 */
const AROUND = 60;

/** A table that begins long after the start of anesthesia is read half a day too early where its clock does not tell the half. */
const HALF_OF_THE_DAY =
  ' If its clock tells neither AM nor PM, its first line was taken for the time nearest to the start of anesthesia: export it with hours of 24, or with AM and PM.';

/**
 * Whether the readings are of this anesthesia. A table without one reading in it is another patient's, another day's, or
 * kept by another clock, and stops; a reading long before or after it may be the patient before or the next one, and asks.
 */
export function vitalsTimes(
  { value, at }: Located<CaseText>,
  { rows }: VitalsTable,
  time: Timeline,
): Outcome<readonly Question[]> {
  const [first, last] = [rows.at(0)?.minute, rows.at(-1)?.minute];
  if (first === undefined || last === undefined) return good([]);
  const clock = (minute: number) =>
    time.begin
      .add({ seconds: Math.round(minute * 60) })
      .toPlainDateTime()
      .toString({ smallestUnit: 'minute' })
      .replace('T', ' ');
  const found = `${rows.length === 1 ? 'a reading' : `${rows.length} lines of readings`} from ${clock(first)} to ${clock(last)}`;
  const span = `the anesthesia from ${clock(0)} to ${clock(time.minutes)}`;
  const kind = 'readings of another time' as const;
  const place = at('monitor', 'vitals');
  if (!rows.some(({ minute }) => minute >= 0 && minute <= time.minutes)) {
    return bad({
      kind,
      ...place,
      found: `${found}, none of them within ${span}`,
      expected: 'readings of this anesthesia',
      mend: `See whether the file is of this patient and this day. If only the clock of the monitor was off, write under "monitor" how far, for example: clock of vitals: 60 min behind.${value.monitor.table === undefined ? '' : HALF_OF_THE_DAY}`,
    });
  }
  const apart = rows.filter(({ minute }) => minute < -AROUND || minute > time.minutes + AROUND);
  if (apart.length === 0) return good([]);
  return good([
    {
      ...asked(kind, partOf.monitor(value), 'Take out the lines of other patients'),
      ...place,
      found: `${found}, ${apart.length} of them more than an hour before or after ${span}`,
      expected: 'readings of this patient alone, as everything in the file is told as such',
    },
  ]);
}

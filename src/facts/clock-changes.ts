import type { Temporal } from 'temporal-polyfill';
import type { CaseText } from '../record/case-schema.js';
import { localTime } from '../record/moments.js';
import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import type { Located } from '../record/yaml-file.js';
import { asked, medicinesOf, partOf, type Question } from './asked.js';

type Told = readonly [written: string | undefined, ...path: (string | number)[]];

/**
 * Moments of the record in the hour of a clock change. One that the change skips never was, and stops; one that the clock
 * showed twice is taken for the first, and asks.
 * @param timeZone that of the clinic; a first home dose is told by the clock at home
 */
export function clockChangeMoments(
  { value, at }: Located<CaseText>,
  timeZone: string,
): Outcome<readonly Question[]> {
  const problems: Problem[] = [];
  const warnings: Question[] = [];
  const heed = (zone: string, [written, ...path]: Told) => {
    if (written === undefined) return;
    const local = localTime(written, value.surgery.date);
    const [first, second] = (['earlier', 'later'] as const).map((disambiguation) =>
      local.toZonedDateTime(zone, { disambiguation }),
    ) as [Temporal.ZonedDateTime, Temporal.ZonedDateTime];
    if (first.epochMilliseconds === second.epochMilliseconds) return;
    const said = {
      ...at(...path),
      found: `${local.toString({ smallestUnit: 'minute' }).replace('T', ' ')} in ${zone}`,
    };
    if (!first.toPlainDateTime().equals(local)) {
      problems.push({
        ...said,
        kind: 'a time that a clock change skips',
        expected: 'a time that the clock showed: it was put forward over this one',
        mend: `Write what a clock that was put forward showed, such as ${clock(second)}, or mend the date.`,
      });
      return;
    }
    warnings.push({
      ...said,
      ...asked(
        'a time that a clock change shows twice',
        partOf.patient(value),
        'See that what is computed from it is right',
      ),
      expected: `a time that came once: it is taken for the first, in ${first.offset} of world time, and not for the one in ${second.offset}`,
    });
  };
  for (const told of inTheClinic(value)) heed(timeZone, told);
  for (const { place, medicine } of medicinesOf(value.home)) {
    heed(value.home?.['at home in'] ?? timeZone, [medicine.first, ...place, 'first']);
  }
  return problems.length > 0 ? bad(...problems) : good(warnings);
}

const clock = (at: Temporal.ZonedDateTime) => at.toPlainTime().toString({ smallestUnit: 'minute' });

/** Every moment that the record tells by the clock of the clinic. */
function inTheClinic({ surgery, anesthesia, events, monitor, home }: CaseText): Told[] {
  return [
    [surgery.begin, 'surgery', 'begin'],
    [surgery.end, 'surgery', 'end'],
    [surgery.discharge, 'surgery', 'discharge'],
    [anesthesia.begin, 'anesthesia', 'begin'],
    [anesthesia.end, 'anesthesia', 'end'],
    ...anesthesia.drugs.map((drug, index): Told => [drug.at, 'anesthesia', 'drugs', index, 'at']),
    ...events.map((event, index): Told => [event.at, 'events', index, 'at']),
    ...monitor['off patient'].flatMap(({ from, to }, index): Told[] => [
      [from, 'monitor', 'off patient', index, 'from'],
      [to, 'monitor', 'off patient', index, 'to'],
    ]),
    ...monitor.strips.map(({ begin }, index): Told => [begin, 'monitor', 'strips', index, 'begin']),
    ...medicinesOf(home).map(
      ({ place, medicine }): Told => [medicine['last given'], ...place, 'last given'],
    ),
  ];
}

import type { CaseText } from '../record/case-schema.js';
import type { VitalsTable } from '../record/vitals-file.js';
import type { Located } from '../record/yaml-file.js';
import { asked, partOf, type Question } from './asked.js';

/** Asks about lines that stand twice: they add nothing that is told, but the line that was meant is missing. */
export function repeatedLines(
  { value, at }: Located<CaseText>,
  { repeated = [] }: VitalsTable,
): Question[] {
  if (repeated.length === 0) return [];
  const found =
    repeated.length === 1
      ? `line ${repeated[0]}, letter by letter the line before it`
      : `lines ${repeated.join(', ')}, each letter by letter the line before it`;
  return [
    {
      ...asked(
        'a line of readings given twice',
        partOf.monitor(value),
        'Mend the time and the readings of the copy, take it out',
      ),
      ...at('monitor', 'vitals'),
      found,
      expected: 'each time once, with the readings of that time',
    },
  ];
}

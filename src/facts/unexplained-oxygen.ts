import type { CaseText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import { LOW_SATURATION } from '../vitals/oxygen.js';
import { asked, partOf, type Question } from './asked.js';
import type { VitalsFacts } from './case-facts.js';

/** Asks about many minutes of low oxygen saturation of which no note and no event tells: the teaching page would say so. */
export const unexplainedOxygen = (
  { value, at }: Located<CaseText>,
  { lowOxygen }: Pick<VitalsFacts, 'lowOxygen'>,
): Question[] =>
  (lowOxygen?.value ?? []).flatMap(({ from, to, lowest, told }): Question[] =>
    told
      ? []
      : [
          {
            ...asked(
              'little oxygen that nothing explains',
              partOf.monitor(value),
              'Add a remark to the events, say under "off patient" when the sensor was off or read badly',
            ),
            ...at('monitor', 'vitals'),
            found: `SpO2 of ${LOW_SATURATION} % or less at each reading from minute ${Math.round(from)} to minute ${Math.round(to)}, ${lowest.value} % on line ${lowest.line}, told as the patient's`,
            expected: 'a note among the events of what was seen and done meanwhile',
          },
        ],
  );

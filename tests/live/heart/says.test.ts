import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { bloodAt } from '../../../src/live/heart/blood.js';
import { phaseAt } from '../../../src/live/heart/phase.js';
import { sayBlood, sayDelays, sayPhase, sayPlace } from '../../../src/live/heart/says.js';
import { flatten } from '../../../src/words/phrasebook.js';
import { beatAt, strip, wave } from './records.js';

const content = join(import.meta.dirname, '../../../content');
const folders = readdirSync(content, { withFileTypes: true }).filter((one) => one.isDirectory());
const languages = folders
  .map(({ name }) => name)
  .map(
    (tag) => [tag, flatten(parse(readFileSync(join(content, tag, 'live.yaml'), 'utf8')))] as const,
  );

const records = [
  strip(
    [
      beatAt(1),
      beatAt(2),
      beatAt(4),
      beatAt(5, 'sinus', { p: null }),
      beatAt(6, 'sinus', { t: null }),
      beatAt(7, 'aberrant'),
      beatAt(8, 'sinus', { qrs: null }),
      beatAt(9),
    ],
    {
      ruled: 'second-degree atrioventricular block, constant PR',
      loneP: [wave(2.15, 2.19), wave(2.87, 2.91)],
    },
  ),
  strip([beatAt(1), beatAt(2), beatAt(6), beatAt(7)], {
    ruled: 'cannot be told',
    unreadable: [3, 5],
  }),
  strip([
    beatAt(1),
    beatAt(1.6, 'ventricular premature', { p: null }),
    beatAt(3, 'supraventricular premature'),
    beatAt(4, 'fusion'),
    beatAt(5, 'junctional escape', { p: null }),
    beatAt(6, 'ventricular escape'),
    beatAt(7, 'unclassified'),
    beatAt(8),
  ]),
  strip(
    [1, 2].map((time) => beatAt(time, 'sinus', { p: null })),
    { ruled: 'atrial fibrillation' },
  ),
  strip(
    [1, 2].map((time) => beatAt(time, 'sinus', { p: null })),
    { ruled: 'atrial standstill' },
  ),
  strip([], { ruled: 'ventricular fibrillation' }),
  strip([], { ruled: 'asystole' }),
];

describe.each(languages)('the words of the heart in %s', (_, words) => {
  it('have a whole sentence for every step, each of which can happen', () => {
    const said = new Set<string>();
    for (const record of records) {
      for (let second = 0; second < 10; second += 0.01) {
        const phase = phaseAt(record, second);
        const blood = bloodAt(record, second);
        said.add(`heart.step.${phase.step}`).add(`heart.flow.${blood.step}`);
        for (const pieces of [sayPhase(words, phase), sayBlood(words, blood)]) {
          const text = pieces.map((piece) => piece.text).join('');
          expect(text.length, phase.step).toBeGreaterThan(10);
          expect(text, phase.step).not.toMatch(/[{}*]|undefined|NaN| {2}| [.,;:]| s\b.{0,3} s\b/);
        }
      }
    }
    const unsaid = Object.keys(words).filter(
      (key) => /^heart\.(step|flow)\./.test(key) && !said.has(key),
    );
    expect(unsaid.sort()).toEqual(
      ['fromBody', 'fromLungs', 'note', 'toBody', 'toLungs'].map((key) => `heart.flow.${key}`),
    );
  });

  it('name the times of the wave and the beat', () => {
    const [record] = records as [(typeof records)[0]];
    const phase = phaseAt(record, 2);
    const text = sayPhase(words, phase)
      .map((piece) => piece.text)
      .join('');
    expect(text).toContain('1.970');
    expect(text).toContain('2.030');
    expect(sayPlace(words, record, phase, 2)).toMatch(/2\.000 s.*\b2\b.*\b8$/);
  });

  it('say that nothing of the blood was measured, and by how much it is drawn later', () => {
    const text = sayDelays(words)
      .map((piece) => piece.text)
      .join('');
    expect(text).toMatch(/not measured|no se midió/);
    expect(text).toMatch(/unverified|sin verificar/);
    for (const ms of ['30 ms', '60 ms', '20 ms', '70 ms']) expect(text).toContain(ms);
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { HomeCase } from '../../src/facts/case-facts.js';
import { publicFacts } from '../../src/privacy/public-facts.js';
import { disk } from '../../src/publish/disk.js';
import { loadCase } from '../../src/publish/load-case.js';
import { vitalsFigure } from '../../src/publish/vitals-figure.js';
import type { Language } from '../../src/words/language.js';
import { monitor } from '../../src/words/owner/monitor.js';
import type { CaseFigures } from '../../src/words/teaching/learner-section.js';
import { pressurePart } from '../../src/words/teaching/pressure.js';
import { readingsPart, vitalsPart } from '../../src/words/teaching/vitals.js';
import { demo, OPEN_VEIL } from '../facts/demo.js';
import { DEMO } from '../publish/clinic.js';
import { accepted, atHome } from '../record/sample.js';

const effects = disk(() => {});

/** Juniper, anesthetized from 09:40 on, with other pressures: clock, systolic, diastolic and mean; and a cuff that was off. */
function juniper(lines: readonly string[], off: readonly string[] = []): HomeCase {
  const table = ['clock,systolic [mmHg],diastolic [mmHg],mean [mmHg]', ...lines, ''].join('\n');
  const spans = ['systolic', 'diastolic', 'mean'].flatMap((channel) =>
    off.map((span) => `    - { channel: ${channel}, ${span}, why: the cuff had slipped }\n`),
  );
  const changed = (path: string, text: string): string =>
    path.endsWith('vitals.csv')
      ? table
      : text.replace('    - { channel: temp', `${spans.join('')}    - { channel: temp`);
  const read = loadCase(`${DEMO}/cases/juniper`, demo.clinic, demo.content.keys, {
    ...effects,
    readBytes: (path) =>
      /case\.yaml|vitals\.csv/.test(path)
        ? { ok: true, value: Buffer.from(changed(path, readFileSync(path, 'utf8'))) }
        : effects.readBytes(path),
  });
  return atHome(accepted(read).facts);
}

const language = (tag: string) => demo.content.languages.get(tag) as Language;
const owner = (facts: HomeCase, tag = 'en') => JSON.stringify(monitor(facts, language(tag)));

function learner(facts: HomeCase, tag = 'en'): string {
  const known = publicFacts(facts, OPEN_VEIL);
  if (!known) throw new Error('The case is not published.');
  const figures = { vitals: {} } as unknown as CaseFigures;
  return [pressurePart, vitalsPart, readingsPart]
    .flatMap((part) => part(known, language(tag), figures))
    .map((block) => JSON.stringify(block).replaceAll(/"\},\{"text":"|","bold":true/g, ''))
    .join('\n');
}

describe('a monitor that gave one mean pressure beside fourteen pairs of 70/30', () => {
  const minutes = Array.from({ length: 14 }, (_, index) => 5 * index);
  const clock = (minute: number) =>
    `${String(9 + Math.floor((40 + minute) / 60)).padStart(2, '0')}:${String((40 + minute) % 60).padStart(2, '0')}`;
  const facts = juniper(
    minutes.map((at) => (at === 0 ? '09:40,110,60,72' : `${clock(at)},70,30,`)),
  );

  it('is told as low to owner and learner, in both languages', () => {
    expect(owner(facts)).toContain('Blood pressure was low at the last reading that we have.');
    expect(owner(facts, 'es')).toContain('La presión estaba baja en la última medida');
    expect(learner(facts)).toContain('at each reading from minute 5 to minute 65');
  });

  it('says how many means were read, and how many computed, and marks these in the table', () => {
    expect(facts.vitals.lowPressure.value).toMatchObject({ read: 1, computed: 13 });
    expect(learner(facts)).toContain('1 read from the monitor, 13 computed from the systolic');
    expect(learner(facts)).toContain('gave one mean pressure; 13 others are estimated here');
    expect(learner(facts, 'es')).toContain('1 leídas del monitor, 13 calculadas');
    expect(learner(facts)).toContain('"43.3*"');
    expect(learner(facts)).toContain('"72.0"');
    expect(learner(facts)).toContain('with an asterisk was computed');
  });
});

describe('pressure that is low on both sides of a cuff that had slipped', () => {
  const facts = juniper(
    ['09:45,110,60,77', '09:50,70,40,50', '10:20,72,42,52', '10:25,110,60,77'],
    ['from: 09:55, to: 10:15'],
  );

  it('makes two episodes that nobody saw end or begin, and no sum across', () => {
    expect(facts.vitals.lowPressure.value?.episodes).toMatchObject([
      { from: 10, to: 10, before: 5, after: null, unseen: 'after' },
      { from: 40, to: 40, before: null, after: 45, unseen: 'before' },
    ]);
    // The first low reading is followed by nothing that was seen; the second by 5 min at 60 - 52.
    expect(facts.vitals.lowPressure.value?.burden).toEqual({ minutes: 5, area: 40 });
  });

  it('is drawn as no line across the stretch', () => {
    const known = publicFacts(facts, OPEN_VEIL);
    if (!known) throw new Error('The case is not published.');
    const mean = vitalsFigure(known, language('en')).series.find(
      ({ measure }) => measure === 'mean',
    );
    expect(mean?.readings.map(({ minute, value }) => [minute, value])).toEqual([
      [5, 77],
      [10, 50],
      [25, null],
      [40, 52],
      [45, 77],
    ]);
  });

  it('is told so to owner and learner, in both languages', () => {
    expect(owner(facts)).toContain(
      'The sensor was off for part of it, so we do not know how long.',
    );
    expect(owner(facts, 'es')).toContain('así que no sabemos cuánto');
    expect(learner(facts)).toContain('off the patient after that, so nobody saw until when');
    expect(learner(facts)).toContain('off the patient before that, so nobody saw since when');
    expect(learner(facts, 'es')).toContain('nadie vio hasta cuándo');
  });
});

// Lines of seconds: low from 5:00 to 9:36, not low at 4:00 and at 10:12. Seen low for 4.6 min, and for less than 6.2 min.
it('gives owner and learner the same whole minutes: 4.6 is more than 4, 6.2 is less than 7', () => {
  const facts = juniper([
    '09:44:00,110,60,77',
    '09:45:00,70,40,50',
    '09:49:36,70,40,50',
    '09:50:12,110,60,77',
  ]);
  expect(owner(facts)).toContain('Blood pressure was low for 4 to 7 minutes.');
  expect(learner(facts)).toContain('for more than 4 min');
  expect(learner(facts)).toContain('for less than 7 min');
  expect(learner(facts, 'es')).toContain('más de 4 min');
});

import { expect, it } from 'vitest';
import { answered } from '../../src/facts/asked.js';
import { clockFacts, clockWarnings } from '../../src/facts/clocks.js';
import { accepted, caseWith } from '../record/sample.js';

/** Beats whose rate swings, s. */
const beats: { time: number }[] = [];
for (
  let time = 0;
  time < 1200;
  time += 60 / (100 + 30 * Math.sin(time / 78) * Math.cos(time / 186))
) {
  beats.push({ time });
}
const strip = (begins: number | null) => ({
  file: 'strip.edf',
  begins: { value: begins },
  analysis: {
    beats,
    quality: { spans: [{ readable: true, from: 0, to: 1200 }] },
    rhythms: [{ name: 'sinus rhythm', from: 0, to: 1200, possible: [], because: [] }],
  },
});
/** Rates as a monitor displays them whose clock is so many minutes ahead of the record's. */
const rates = (ahead: number) => {
  const patient = Array.from({ length: 36 }, (_, index) => {
    const second = 30 + index * 30;
    const inside = beats.filter(({ time }) => time >= second - 10 && time <= second);
    const span = (inside.at(-1)?.time ?? 0) - (inside[0]?.time ?? 0);
    return { minute: second / 60 + ahead, value: Math.round((60 * (inside.length - 1)) / span) };
  });
  return { channel: 'heart rate', patient };
};
const clocks = (ahead: number, begins: number | null = 0) =>
  clockFacts([rates(ahead)] as never, [strip(begins)] as never);
const record = (...lines: readonly string[]) =>
  accepted(caseWith([/^monitor:\n/m, `monitor:\n${lines.map((line) => `  ${line}\n`).join('')}`]));

it('says nothing of clocks that agree, and how far apart others are, to which side', () => {
  expect(clockWarnings(record(), clocks(0))).toEqual([]);
  for (const [ahead, said] of [
    [1.5, '90 s ahead'],
    [-2, '120 s behind'],
  ] as const) {
    const [warning] = clockWarnings(record(), clocks(ahead));
    expect(warning?.found).toContain(
      `36 displayed heart rates that go with the beats of the strips ${said}`,
    );
    expect(warning?.mend).toContain(`clock of vitals: ${said} (or what you find)`);
  }
});

it('asks about a stated difference of the wrong side, and tells the whole of the right one', () => {
  // The record says 90 s behind, so that readings are put 90 s later, and lie 180 s after the beats.
  const stated = record('clock of vitals: 90 s behind');
  const [warning] = answered(clockWarnings(stated, clocks(3)));
  expect(warning).toMatchObject({ field: 'monitor.clock of vitals', accepted: null });
  expect(warning?.found).toContain('180 s ahead');
  expect(warning?.mend).toContain('clock of vitals: 90 s ahead (or what you find)');
});

it('is answered by the reason in the record', () => {
  const because = record(
    'clock of vitals: 0 s ahead',
    'accepted because: { T350: both were set to one clock }',
  );
  expect(answered(clockWarnings(because, clocks(1.5)))).toMatchObject([
    { accepted: 'both were set to one clock' },
  ]);
});

it('says why nothing is known where no strip has a begin, or no rate was displayed', () => {
  expect(clocks(0, null)).toMatchObject({ why: 'The record holds no strip whose begin is known.' });
  expect(clockFacts([], [strip(0)] as never)).toMatchObject({
    why: 'The vitals hold no displayed heart rate of the patient.',
  });
});

import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { buildFacts } from '../../src/facts/build-facts.js';
import { readVitals } from '../../src/record/vitals-file.js';
import { accepted, type Change, caseWith, clinicWith, problemsOf } from '../record/sample.js';

/** The night before a day, with an anesthesia from 23:10 on; in Chicago clocks change at 2:00 of 8 March and 1 November 2026. */
const night = (day: string, end: string, table: string, ...more: Change[]) => {
  const before = Temporal.PlainDate.from(day).subtract({ days: 1 }).toString();
  const record = accepted(
    caseWith(
      ['date: 2026-03-09\n', `date: ${before}\n`],
      ['  begin: 09:30\n  end: 10:05\n  discharge: 15:00', `  discharge: ${day} 18:00`],
      ['  begin: 09:10\n  end: 10:15', `  begin: 23:10\n  end: ${day} ${end}`],
      [/ {2}drugs:\n.*\n.*\n/, ''],
      [/events:\n.*\n/, ''],
      [/ {2}off patient:\n.*\n/, ''],
      [/last given: \S+/, `first: ${day} 20:00`],
      ...more,
    ),
  );
  const begin = Temporal.ZonedDateTime.from(`${before}T23:10[America/Chicago]`);
  const vitals = accepted(readVitals(`clock,SpO2 [%]\n${table}`, 'vitals.csv', begin));
  return buildFacts(clinicWith(), record, vitals, []);
};
const minutes = (facts: ReturnType<typeof night>) =>
  accepted(facts).vitals.channels[0]?.patient.map(({ minute }) => minute);

describe('an anesthesia through a clock change', () => {
  it('lasts an hour less than the clock says where it was put forward', () => {
    const facts = night('2026-03-08', '04:00', '01:50,98\n03:10,97\n');
    expect(accepted(facts).anesthesia.duration.value).toBe(230);
    expect(minutes(facts)).toEqual([160, 180]);
  });

  it('lasts an hour more where it was put back, and the hour that comes twice is read twice', () => {
    const facts = night('2026-11-01', '04:00', '01:10,98\n01:50,98\n01:20,97\n02:10,97\n');
    expect(accepted(facts).anesthesia.duration.value).toBe(350);
    expect(minutes(facts)).toEqual([120, 160, 190, 240]);
  });

  it('reads on by a monitor that nobody put forward', () => {
    const table = '01:50,98\n02:10,98\n02:50,97\n03:10,97\n';
    expect(minutes(night('2026-03-08', '05:00', table))).toEqual([160, 180, 220, 240]);
  });
});

describe('a moment of the record in the hour of a clock change', () => {
  it('is refused where the clock skipped it', () => {
    expect(problemsOf(night('2026-03-08', '02:30', '01:50,98\n'))).toEqual([
      expect.objectContaining({
        kind: 'a time that a clock change skips',
        field: 'anesthesia.end',
        found: '2026-03-08 02:30 in America/Chicago',
        mend: 'Write what a clock that was put forward showed, such as 03:30, or mend the date.',
      }),
    ]);
  });

  it('is asked about where the clock showed it twice, and the record answers', () => {
    const asked = (...more: Change[]) =>
      accepted(night('2026-11-01', '01:30', '01:10,98\n', ...more)).warnings.filter(
        ({ kind }) => kind === 'a time that a clock change shows twice',
      );
    expect(asked()).toMatchObject([{ field: 'anesthesia.end', accepted: null }]);
    const answer = 'it was the first';
    expect(
      asked(['weight: 12.5 kg', `weight: 12.5 kg\n  accepted because: { T354: ${answer} }`]),
    ).toMatchObject([{ accepted: answer }]);
  });

  it('is heeded by the clock at home for a first dose that the record sets', () => {
    const at = (zone: string): Change => ['home:\n', `home:\n  at home in: ${zone}\n`];
    const first: Change = [/first: \S+ \S+/, 'first: 2026-03-29 02:30'];
    expect(
      problemsOf(night('2026-03-08', '04:00', '01:50,98\n', first, at('Europe/Madrid'))),
    ).toMatchObject([{ field: 'home.medicines[0].first' }]);
    expect(night('2026-03-08', '04:00', '01:50,98\n', first, at('Asia/Tokyo')).ok).toBe(true);
  });
});

import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { CASES, DEMO } from '../publish/clinic.js';
import { thrice } from './thrice.js';

const seconds = z.number().min(0);
const share = z.number().min(0).max(1);
/** A wave of a beat: its times in seconds and whatever else is known of it; null where it was not looked for or seen. */
const wave = z.record(z.string(), z.unknown()).nullable();

const shape = z.looseObject({
  samplingRate: z.number().positive(),
  duration: z.number().positive(),
  quality: z
    .looseObject({
      readable: share,
      spans: z.array(
        z.looseObject({
          from: seconds,
          to: seconds,
          readable: z.boolean(),
          why: z.string().nullable(),
        }),
      ),
    })
    .nullable(),
  beats: z.array(
    z.looseObject({ time: seconds, kind: z.string().nullable(), p: wave, qrs: wave, t: wave }),
  ),
  rate: z
    .looseObject({
      mean: z.number().positive(),
      shortest: z.number().positive(),
      longest: z.number().positive(),
      shortWindow: z
        .looseObject({ window: z.number().positive(), low: seconds, high: seconds })
        .nullable(),
      longEnough: z.number().positive().nullable(),
      steadyFrom: z.number().positive().nullable(),
    })
    .nullable(),
  rhythms: z.unknown(),
  because: z.looseObject({
    rate: z.string().nullable(),
    shortWindow: z.string().nullable(),
    longEnough: z.string().nullable(),
    steadyFrom: z.string().nullable(),
    variability: z.string().nullable(),
  }),
});

const STRIPS = CASES.map((name) => {
  const file = readdirSync(join(DEMO, 'cases', name)).find((entry) =>
    /^strip\.(edf|hea|csv)$/.test(entry),
  );
  return [name, join(DEMO, 'cases', name, file as string)] as const;
});
const EDF = join(DEMO, 'cases', 'juniper', 'strip.edf');
const DOG = ['--species', 'dog', '--weight', '18kg'];

describe('thrice strip --json', () => {
  it.each(STRIPS)('has the documented shape for %s', async (_, file) => {
    const { code, out, err } = await thrice('strip', file, ...DOG, '--lead', 'II', '--json');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const { beats, duration, quality, rate, because, ...rest } = shape.parse(JSON.parse(out));
    expect(rest).toHaveProperty('rhythms');
    expect(duration).toBeGreaterThanOrEqual(10);
    const times = beats.map(({ time }) => time);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(times.at(-1) ?? 0).toBeLessThanOrEqual(duration);
    for (const { from, to } of quality?.spans ?? []) {
      expect(from).toBeLessThan(to);
      expect(to).toBeLessThanOrEqual(duration);
    }
    expect(rate === null).toBe(because.rate !== null);
    if (rate) {
      expect(rate.shortest).toBeLessThanOrEqual(60 / rate.mean);
      expect(rate.longest).toBeGreaterThanOrEqual(60 / rate.mean);
      if (rate.shortWindow) {
        expect(rate.shortWindow.low).toBeLessThanOrEqual(rate.shortWindow.high);
      }
    }
  });

  it('reads lead II where none is named', async () => {
    const named = await thrice('strip', EDF, ...DOG, '--lead', 'II', '--json');
    expect(await thrice('strip', EDF, ...DOG, '--json')).toEqual(named);
  });

  it.each(STRIPS)('has no key for %s that the help does not explain', async (_, file) => {
    const { out: help } = await thrice('strip', '--help');
    const { out } = await thrice('strip', file, ...DOG, '--json');
    const keys = keysOf(JSON.parse(out));
    expect(keys).toEqual(expect.arrayContaining(['samplingRate', 'why', 'longEnough', 'qrs']));
    for (const key of keys) expect(help).toMatch(new RegExp(`\\b${key}\\b`));
  });
});

/** Every key of a tree, however deep; the names of a reason's values stand with its sentence. */
function keysOf(tree: unknown): string[] {
  if (typeof tree !== 'object' || tree === null) return [];
  if (Object.hasOwn(tree, 'values')) return Object.keys(tree);
  const own = Array.isArray(tree) ? [] : Object.keys(tree);
  return [...new Set([...own, ...Object.values(tree).flatMap(keysOf)])];
}

describe('thrice strip', () => {
  it('tells the counts in plain words', async () => {
    const { code, out } = await thrice('strip', EDF, ...DOG);
    expect(code).toBe(0);
    expect(out).toContain(`${EDF}, lead ECG II, 60 s\n`);
    expect(out).toMatch(/^Beats +\d+$/m);
    expect(out).toContain('a veterinarian reads the strip');
  });

  it.each([
    [['--weight', '18kg'], '--species is missing; give one of dog, cat, rabbit, ferret.'],
    [['--species', 'horse', '--weight', '18kg'], '--species "horse" is not known;'],
    [['--species', 'dog'], '--weight is missing; write it like 18kg or 40lb.'],
    [['--species', 'dog', '--weight', '18'], '--weight "18" cannot be read;'],
    [['--species', 'dog', '--weight', '18 stone'], '--weight "18 stone" cannot be read;'],
    [['--species', 'dog', '--weight', '0kg'], '--weight "0kg" cannot be read;'],
    [[...DOG, '--sampling-rate', 'fast'], '--sampling-rate "fast" cannot be read;'],
    [[...DOG, '--sampling-rate', '0'], '--sampling-rate "0" cannot be read;'],
  ])('does not understand %j', async (words, said) => {
    const { code, out, err } = await thrice('strip', EDF, ...words);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(`thrice strip: ${said}`);
  });

  it('asks for unit and gain where a lead hardly moves', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'small-'));
    const small = join(folder, 'strip.csv');
    // A QRS of 0.01 mV each second.
    const samples = Array.from({ length: 5000 }, (_, i) => (i % 500 === 250 ? 0.01 : 0));
    writeFileSync(small, ['II [mV]', ...samples].join('\n'));
    const { code, out } = await thrice('strip', small, ...DOG, '--sampling-rate', '500');
    rmSync(folder, { recursive: true });
    expect(code).toBe(0);
    expect(out).toMatch(/^Size .*0\.01 mV.*unit and gain/m);
    expect((await thrice('strip', EDF, ...DOG)).out).not.toMatch(/^Size/m);
  });

  it('names in its help each reason why there is no rate', async () => {
    const { out } = await thrice('strip', '--help');
    for (const why of [
      'no samples',
      'nothing readable',
      'fewer than two beats',
      'beats in doubt',
    ]) {
      expect(out).toContain(`"${why}"`);
    }
  });

  it('names all that it does not understand in one go', async () => {
    expect((await thrice('strip', EDF)).err.split('\n')).toHaveLength(2);
  });

  it.each([
    [EDF, ['--lead', 'V9'], `${EDF}  --lead`, 'the lead "V9"'],
    [join(DEMO, 'none.edf'), [], join(DEMO, 'none.edf'), 'no such file'],
    [DEMO, [], DEMO, 'a file name without an ending'],
    [join(DEMO, 'cases/tucker/strip.dat'), [], 'strip.dat', 'a ".dat" file'],
    [join(DEMO, 'cases/tucker/vitals.csv'), [], 'vitals.csv', ''],
  ])('shows the problem of %s %j', async (file, words, place, found) => {
    const { code, out, err } = await thrice('strip', file, ...DOG, ...words);
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toContain(place);
    expect(err).toContain(`\n  found     ${found}`);
    expect(err).toMatch(/\n {2}expected {2}.+\n {2}to mend {3}.+\n/);
  });
});

it('calls no value within a range whose figure it passes: paper cannot be read more finely, and the line says so', async () => {
  const { out } = await thrice(
    'strip',
    join(DEMO, 'cases/saffron/strip.csv'),
    ...['--species', 'cat', '--weight', '4kg'],
  );
  expect(out).toContain('QRS       0.042 s (at the limit of the awake range to 0.04)');
});

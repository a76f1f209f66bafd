import { afterAll, expect, it } from 'vitest';
import { TestClinic } from '../publish/clinic.js';
import { thrice } from './thrice.js';

const clinic = new TestClinic('clover');
afterAll(() => clinic.remove());

it('asks about a surgery after the day of the check, and of that day no more', async () => {
  const check = (...more: string[]) => thrice('check', clinic.folder, ...more);
  const early = await check('--on', '2026-05-04');
  expect(early.code).toBe(0);
  expect(early.out).toMatch(/^No problem, but warnings to answer, in clover\.\n/);
  expect(early.err).toMatch(/Warning: .*case\.yaml:\d+:3 {2}surgery\.date {2}\[T373\]/);
  expect(early.err).toContain('a surgery on 2026-05-05, which is after today, 2026-05-04');
  expect((await check('--on', '2026-05-04', '--strict')).code).toBe(1);
  const json = JSON.parse((await check('--on', '2026-05-04', '--json')).out) as {
    warnings: { number: string }[];
  };
  expect(json.warnings.map(({ number }) => number)).toContain('T373');
  expect((await check('--on', '2026-05-05')).err).not.toContain('T373');
});

it('is no fact of the case: a build says and writes the same on any day', async () => {
  clinic.edit('cases/clover/case.yaml', 'date: 2026-05-05', 'date: 2126-05-05');
  const { err } = await thrice('build', clinic.folder, '--out', clinic.out, '--no-cache');
  expect(err).not.toContain('T373');
  expect((await thrice('check', clinic.folder)).err).toContain('T373');
});

it('takes a day of the calendar alone', async () => {
  expect(await thrice('check', clinic.folder, '--on', '2026-02-30')).toMatchObject({
    code: 2,
    err: expect.stringContaining('--on "2026-02-30" cannot be read'),
  });
});

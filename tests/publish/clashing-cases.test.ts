import { copyFileSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { thrice } from '../cli/thrice.js';
import { TestClinic } from './clinic.js';

const clinic = new TestClinic('clover', 'juniper', 'saffron');
afterAll(() => clinic.remove());
const build = (...more: string[]) => thrice('build', clinic.folder, '--out', clinic.out, ...more);
const sheet = (name: string) => join(clinic.out, 'private', name, 'discharge.html');

it('leaves out both of two cases that have the readings of one patient, and builds the others', async () => {
  expect((await build()).code).toBe(0);
  const before = readFileSync(sheet('juniper'));
  copyFileSync(clinic.path('cases/clover/vitals.csv'), clinic.path('cases/juniper/vitals.csv'));
  clinic.edit('cases/saffron/case.yaml', /record: .*/, 'record: X-1');
  const { code, err } = await build();
  expect(code).toBe(1);
  expect(err.match(/\[T358\]/g)).toHaveLength(1);
  expect(err).toContain('1 problem.');
  expect(err).toContain('Left out: juniper, clover.');
  expect(readFileSync(sheet('saffron'), 'utf8')).toContain('X-1');
  // Their last sheets are kept; nothing of them is public until it is known whose readings they are.
  expect(readFileSync(sheet('juniper')).equals(before)).toBe(true);
  expect(existsSync(join(clinic.out, 'public', 'ventilator-and-heartbeat'))).toBe(false);
}, 120_000);

it('builds nothing of any under --strict', async () => {
  const before = readFileSync(sheet('saffron'));
  clinic.edit('cases/saffron/case.yaml', /record: .*/, 'record: X-2');
  const { code, err } = await build('--strict');
  expect(code).toBe(1);
  expect(err).toContain('[T358]');
  expect(readFileSync(sheet('saffron')).equals(before)).toBe(true);
}, 60_000);

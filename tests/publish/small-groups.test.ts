import { afterAll, expect, it } from 'vitest';
import { thrice } from '../cli/thrice.js';
import { TestClinic } from './clinic.js';

const clinic = new TestClinic('clover');
afterAll(() => clinic.remove());
const build = () => thrice('build', clinic.folder, '--out', clinic.out);
const pages = () => Object.keys(clinic.bytes()).filter((path) => path.includes('must-keep-eating'));

it('withholds a case that stands apart in a clinic that asks for groups, and says so', async () => {
  expect((await build()).out).toContain('Smallest group  1 of the published cases');
  expect(pages()).not.toEqual([]);
  clinic.edit('clinic.yaml', /small groups:\n.*\n.*\n/, '');
  const { code, out } = await build();
  expect(code).toBe(0);
  expect(out).toContain('Small group     clover: withheld, as it stands apart');
  expect(out).toContain('No longer public  a-patient-that-must-keep-eating/teaching.html');
  expect(pages()).toEqual([]);
  expect(Object.keys(clinic.bytes())).toContain('out/private/clover/discharge.html');
}, 60_000);

it('keeps a case back whose title tells the breed that is too rare to be told', async () => {
  clinic.restoreClinic();
  clinic.edit('cases/clover/case.yaml', 'breed: mixed breed', 'breed: Angora');
  clinic.edit('cases/clover/case.yaml', 'title: A patient', 'title: An angora');
  const { code, err } = await build();
  expect(code).toBe(1);
  expect(err).toContain('Kept out of public: clover.');
  expect(err).toMatch(/case\.yaml:\d+:\d+ {2}published\.title/);
  expect(err).toContain('"angora", which tells the breed, in "An angora that must keep eating"');
  expect(pages()).toEqual([]);
}, 60_000);

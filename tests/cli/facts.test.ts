import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bytesIn, CASES, DEMO, TestClinic } from '../publish/clinic.js';
import { thrice } from './thrice.js';

const folder = (name: string) => join(DEMO, 'cases', name);

interface Leaf {
  readonly path: string;
  readonly fact: { value: unknown; how?: string; from?: string[]; why?: string };
}

/** Every fact of a tree: what says how it came about, or why it is not known. */
function factsIn(tree: unknown, path = ''): Leaf[] {
  if (typeof tree !== 'object' || tree === null) return [];
  if ('value' in tree && ('from' in tree || (tree.value === null && 'why' in tree))) {
    return [{ path, fact: tree as Leaf['fact'] }];
  }
  return Object.entries(tree).flatMap(([key, part]) =>
    factsIn(part, path ? `${path}.${key}` : key),
  );
}

describe.each(CASES)('thrice facts of %s', (name) => {
  it('gives as JSON the parts that the help names, each fact with what it rests on', async () => {
    const { code, out, err } = await thrice('facts', folder(name), '--json');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const facts = JSON.parse(out) as object;
    const { out: help } = await thrice('facts', '--help');
    for (const part of Object.keys(facts)) expect(help).toMatch(new RegExp(`\\b${part}\\b`));
    const found = factsIn(facts);
    expect(found.length).toBeGreaterThan(25);
    for (const { path, fact } of found) {
      if (fact.value === null) expect(fact.why, path).toMatch(/\w+ \w+/);
      else expect(fact.how, path).toMatch(/\w/);
    }
  });

  it('lists a line for each fact, with how it came about and what it rests on', async () => {
    const { out: json } = await thrice('facts', folder(name), '--json');
    const { code, out } = await thrice('facts', folder(name), '--all');
    expect(code).toBe(0);
    const lines = new Set(out.split('\n'));
    for (const { path, fact } of factsIn(JSON.parse(json))) {
      const line =
        fact.value === null
          ? `${path}: not known. ${fact.why}`
          : `${path}: ${JSON.stringify(fact.value)}  [${fact.how}] ${fact.from?.join(', ')}`.trimEnd();
      expect(lines).toContain(line);
    }
  });
});

describe('what a veterinarian checks by eye', () => {
  const shown = async (name: string) => (await thrice('facts', folder(name))).out;

  it.each(CASES)('of %s fits on two screens, its numbers rounded', async (name) => {
    const out = await shown(name);
    expect(out.split('\n').length).toBeLessThan(70);
    expect(out).not.toMatch(/\d\.\d{4}/);
    for (const title of ['Medicines for home', 'Given in the clinic', 'Days', 'Warnings', 'Rhythm'])
      expect(out).toContain(`\n\n${title}\n  `);
  });

  it('has each medicine with its dose, hours and first and last dose', async () => {
    // 2 mL of 1.5 mg/mL for 31 kg: 3 mg, 0.0968 mg/kg; four doses from 10:22 on the day after 10:22 in the clinic.
    expect(await shown('bramble')).toContain(
      [
        '  meloxicam 1.5 mg/mL, by mouth, with food, for pain and swelling',
        '    each time   2 mL: 3 mg, 0.097 mg/kg',
        '    hours       every 24 h; up to 0.097 mg/kg in 24 h',
        '    in clinic   last given Tue 2026-03-17 10:22',
        '    first       Wed 2026-03-18 10:22',
        '    last        Sat 2026-03-21 10:22, dose 4 of 4',
        '    handed out  10 mL; 8 needed',
        '    checked     0.05 to 0.1 mg/kg, every 24 h, at most 0.1 mg/kg a day (formulary.yaml)',
      ].join('\n'),
    );
  });

  it('has each medicine as needed with its sign and limits, at the most that may be given', async () => {
    // 25 mg for 3.4 kg: 7.35 mg/kg, twice 14.7; four doses in all.
    expect(await shown('saffron')).toContain(
      [
        '  gabapentin 25 mg/capsule, by mouth, with or without food, for calm rest, as needed',
        '    only if     she races around or jumps',
        '    each time   1 capsule: 25 mg, 7.4 mg/kg',
        '    limits      at least 8 h apart, at most 2 doses in 24 h, 4 doses in all; up to 15 mg/kg in 24 h',
        '    in clinic   none given',
        '    not before  Fri 2026-03-06 22:00',
        '    last day    Thu 2026-03-12; room for 4 doses',
        '    handed out  4 capsules; 4 for 4 doses; enough for 4',
        '    checked     5 to 10 mg/kg, every 8 to 12 h, at most 30 mg/kg a day (formulary.yaml)',
      ].join('\n'),
    );
  });

  it('has each day in its order, and the rhythm', async () => {
    const out = await shown('juniper');
    const days = [...out.matchAll(/^ {2}\w{3} (\d{4}-\d\d-\d\d) {2}/gm)].map(([, on]) => on);
    expect(days.length).toBeGreaterThan(5);
    expect([...days].sort()).toEqual(days);
    expect(out).toMatch(/^ {2}\w{3} 2026-03-24 {2}last day of the collar$/m);
    expect(out).toMatch(/^ {4}0 to \d+ s: breath-linked sinus arrhythmia$/m);
  });

  it('has warnings with their answers', async () => {
    const clinic = new TestClinic('clover');
    clinic.edit('cases/clover/case.yaml', 'weight: 2.1 kg', 'weight: 21 kg');
    const { out } = await thrice('facts', clinic.path('cases/clover'));
    expect(out).toMatch(/^ {2}T314 patient\.weight: a rabbit of 21 kg\n.*\n {4}not accepted$/m);
    clinic.remove();
  });
});

describe('thrice facts', () => {
  it('names the line of the record that a fact rests on', async () => {
    const { out } = await thrice('facts', folder('juniper'), '--all');
    expect(out).toMatch(/^patient\.weight: 22 {2}\[recorded\] .*case\.yaml:\d+ patient\.weight$/m);
    expect(out).toMatch(
      /^home\.rechecks\.0\.on: "2026-03-13" {2}\[.*\] .*case\.yaml:\d+ home\.rechecks\[0\]\.after/m,
    );
  });

  it('says "none" for a list with nothing in it', async () => {
    expect((await thrice('facts', folder('clover'), '--all')).out).toMatch(
      /^home\.awaited: none$/m,
    );
  });

  it('gives a list for a whole clinic', async () => {
    const { out } = await thrice('facts', DEMO, '--json');
    expect(JSON.parse(out)).toHaveLength(CASES.length);
  });

  it('tells the facts of the good cases and the problems of the bad', async () => {
    const clinic = new TestClinic('clover', 'juniper');
    clinic.edit('cases/clover/case.yaml', 'weight: 2.1 kg', 'weight: 2.1');
    const { code, out, err } = await thrice('facts', clinic.folder, '--json');
    expect(code).toBe(1);
    expect(JSON.parse(out)).toMatchObject({ identity: { patientName: 'Juniper' } });
    expect(err).toContain('patient.weight');
    clinic.remove();
  });
});

describe('thrice check', () => {
  it('writes nothing', async () => {
    const clinic = new TestClinic('clover', 'saffron');
    const before = bytesIn(clinic.home);
    expect(await thrice('check', clinic.folder)).toEqual({
      code: 0,
      out: expect.stringMatching(/^No problem in clover, saffron\.\n/),
      err: '',
    });
    clinic.edit('cases/clover/case.yaml', 'weight: 2.1 kg', 'weight: 2.1');
    const { code, out, err } = await thrice('check', clinic.folder);
    expect(code).toBe(1);
    expect(out).toMatch(
      /^No problem in saffron\.\nsaffron, given in the clinic, not checked: .*\nsaffron, owner's sheet /,
    );
    expect(err).toMatch(/patient\.weight[\s\S]*\n1 problem\.$/);
    clinic.restore('clover');
    expect(bytesIn(clinic.home)).toEqual(before);
    clinic.remove();
  });

  it('takes one case by its folder', async () => {
    expect((await thrice('check', folder('tucker'))).out).toMatch(/^No problem in tucker\.\n/);
  });
});

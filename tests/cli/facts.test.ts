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
    const { code, out } = await thrice('facts', folder(name));
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

describe('thrice facts', () => {
  it('names the line of the record that a fact rests on', async () => {
    const { out } = await thrice('facts', folder('juniper'));
    expect(out).toMatch(/^patient\.weight: 22 {2}\[recorded\] .*case\.yaml:\d+ patient\.weight$/m);
    expect(out).toMatch(
      /^home\.rechecks\.0\.on: "2026-03-13" {2}\[.*\] .*case\.yaml:\d+ home\.rechecks\[0\]\.after/m,
    );
  });

  it('says "none" for a list with nothing in it', async () => {
    expect((await thrice('facts', folder('clover'))).out).toMatch(/^home\.awaited: none$/m);
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
    expect(out).toMatch(/^No problem in saffron\.\nsaffron, owner's sheet /);
    expect(err).toMatch(/patient\.weight[\s\S]*\n1 problem\.$/);
    clinic.restore('clover');
    expect(bytesIn(clinic.home)).toEqual(before);
    clinic.remove();
  });

  it('takes one case by its folder', async () => {
    expect((await thrice('check', folder('tucker'))).out).toMatch(/^No problem in tucker\.\n/);
  });
});

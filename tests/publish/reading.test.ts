import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import type { LoadedCase } from '../../src/publish/load-case.js';
import { readingOf } from '../../src/publish/reading.js';
import { thrice } from '../cli/thrice.js';
import { demo } from '../facts/demo.js';
import { TestClinic } from './clinic.js';

describe("every demonstration case's owner's sheet", () => {
  it.each(demo.cases.map((one) => [one.name, one] as const))('%s', (_, one) => {
    const { level, warnings } = readingOf(one, demo.content);
    expect(level?.measures.filter(({ fits }) => !fits)).toEqual([]);
    expect(level?.measures).toHaveLength(2);
    // SMOG is meant for 30 sentences and more.
    expect(level?.counts.sentences).toBeGreaterThanOrEqual(30);
    expect(warnings).toEqual([]);
  });

  it.each(demo.cases.map((one) => [one.name, one] as const))('%s, in Spanish', (_, one) => {
    const { identity } = one.facts;
    const spanish = { ...identity, owner: { ...identity.owner, language: 'es' } };
    const { level } = readingOf(
      { ...one, facts: { ...one.facts, identity: spanish } } satisfies LoadedCase,
      demo.content,
    );
    expect(level?.measures.filter(({ fits }) => !fits)).toEqual([]);
  });
});

describe('a warning', () => {
  const RECORD = 'cases/clover/case.yaml';
  const clinic = new TestClinic('clover');
  afterAll(() => clinic.remove());
  beforeEach(() => clinic.restore('clover'));
  const NOTE = 'She ate hay and passed droppings before she left.';

  it('names the hard sentence at its line of the record, and fails a strict check', async () => {
    const hard = `${'Unfortunately considerable gastrointestinal complications necessitated additional medication. '.repeat(5).trim()}`;
    clinic.edit(RECORD, NOTE, hard);
    const { code, err } = await thrice('check', clinic.folder, '--strict');
    expect(code).toBe(1);
    const line = clinic.lineOf(RECORD, 'Unfortunately');
    expect(err).toContain(`Warning: ${clinic.path(RECORD)}:${line}  surgery.note to owner`);
    expect(err).toContain('found     "Unfortunately considerable');
    expect(err).toContain('expected  sentences for a reader of the sixth grade');
  });

  it('blames no author for the fixed sentences of a sheet that is hard, nor for words in another language', async () => {
    const spanish = 'La paciente presentó complicaciones gastrointestinales considerables. '
      .repeat(9)
      .trim();
    clinic.edit(RECORD, NOTE, spanish);
    const { err } = await thrice('check', clinic.folder);
    expect(err).toContain('[T362]');
    expect(err).not.toContain('[T360]');
    const hard =
      'Unfortunately considerable gastrointestinal complications necessitated medication. ';
    clinic.edit(RECORD, spanish, hard.repeat(5).trim());
    const warned = (await thrice('check', clinic.folder)).err;
    const blamed = warned.split('\n').filter((line) => line.endsWith('[T360]'));
    expect(blamed.length).toBeGreaterThan(0);
    for (const line of blamed) expect(line).toContain('surgery.note to owner');
  });

  it('names a trade word that stands without its explanation', async () => {
    clinic.edit(RECORD, NOTE, 'Watch for a seroma.');
    const { code, err } = await thrice('check', clinic.folder);
    expect(code).toBe(0);
    expect(err).toContain('"seroma" without its explanation');
    expect(err).toContain('"fluid under the skin" or "pocket of fluid"');
    clinic.edit(RECORD, 'Watch for a seroma.', 'Watch for a seroma, a pocket of fluid.');
    expect((await thrice('check', clinic.folder, '--strict')).code).toBe(0);
  });

  it('names the sign of a medicine as needed that is in another language than the sheet', () => {
    const saffron = demo.cases.find(({ name }) => name === 'saffron') as (typeof demo.cases)[0];
    const { home } = saffron.facts;
    const asNeeded = home.asNeeded.map((one) => ({
      ...one,
      sign: { ...one.sign, value: 'llora mucho, se esconde o no se queda en calma por la noche' },
    }));
    const { warnings } = readingOf(
      { ...saffron, facts: { ...saffron.facts, home: { ...home, asNeeded } } } satisfies LoadedCase,
      demo.content,
    );
    expect(warnings).toContainEqual(
      expect.objectContaining({
        kind: 'words in another language',
        field: 'home.as needed[0].if',
        line: expect.any(Number),
      }),
    );
  });

  it('is found in the words of the content at their line', () => {
    const clover = demo.cases.find(({ name }) => name === 'clover') as LoadedCase;
    expect(demo.content.place('en', 'owner', 'signs.now.anyone.1')).toMatchObject({
      file: expect.stringMatching(/content.en.owner\.yaml$/),
      line: expect.any(Number),
      field: 'signs.now.anyone.1',
    });
    expect(readingOf(clover, demo.content).summary).toMatch(
      /^clover, owner's sheet \(en\): Flesch-Kincaid grade [\d.]+ \(6 or below\), SMOG grade [\d.]+ \(6 or below\); \d+ sentences\.$/,
    );
  });
});

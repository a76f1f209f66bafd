import { describe, expect, it } from 'vitest';
import { publicFacts } from '../../src/privacy/public-facts.js';
import type { Handout } from '../../src/words/handout.js';
import { ownerSheet } from '../../src/words/owner/owner-sheet.js';
import { anesthesiaRecord, teachingPage } from '../../src/words/teaching/documents.js';
import type { CaseFigures } from '../../src/words/teaching/learner-section.js';
import { demo, OPEN_VEIL } from './demo.js';
import { walk } from './walk.js';

/** Facts that the passages of a handout name, wherever in it they stand. */
function named(handout: Handout): string[] {
  const facts = [...walk(handout.blocks)].filter(({ path }) => /(^|\.)facts\.\d+$/.test(path));
  return [...new Set(facts.map(({ value }) => String(value)))];
}

/** What a path such as `home.medicines.0.give` leads to; undefined where it leads nowhere. */
const resolve = (facts: unknown, path: string): unknown =>
  path
    .split('.')
    .reduce<unknown>(
      (holder, key) =>
        typeof holder === 'object' && holder !== null
          ? (holder as Record<string, unknown>)[key]
          : undefined,
      facts,
    );

const blank = {
  kind: 'image',
  image: { bytes: new Uint8Array(), widthMm: 1, heightMm: 1 },
} as const;

const figures = (strips: number): CaseFigures => ({
  vitals: blank,
  heart: blank,
  strips: Array.from({ length: strips }, () => ({ figure: blank, seconds: 10 })),
  exercises: {},
  photos: [],
});

it('knows a fact that is not there', () => {
  expect(resolve({ home: { medicines: [{}] } }, 'home.medicines.0.give')).toBeUndefined();
  expect(resolve({ home: { medicines: [{ give: null }] } }, 'home.medicines.0.give')).toBeNull();
});

describe.each(demo.cases.map((loaded) => [loaded.name, loaded] as const))(
  'each passage of %s rests on facts that the case holds',
  (_, { facts, remarks }) => {
    const told = publicFacts(facts, OPEN_VEIL);
    if (!told) throw new Error('The demonstration cases are all published.');

    it.each(['en', 'es'])('in the owner’s sheet, %s', (tag) => {
      const language = demo.content.languages.get(tag);
      const names = language ? named(ownerSheet(facts, language, [])) : [];
      expect(names.length).toBeGreaterThan(10);
      expect(names.filter((name) => resolve(facts, name) === undefined)).toEqual([]);
    });

    it.each(['en', 'es'])('in the documents for learners, %s', (tag) => {
      const language = demo.content.languages.get(tag);
      const drawn = figures(told.strips.length);
      const names = language
        ? [
            ...named(teachingPage(told, remarks, language, drawn, 'A4')),
            ...named(anesthesiaRecord(told, language, drawn, 'A4')),
          ]
        : [];
      expect(names.length).toBeGreaterThan(10);
      expect(names.filter((name) => resolve(told, name) === undefined)).toEqual([]);
    });
  },
);

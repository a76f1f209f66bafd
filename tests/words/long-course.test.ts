import { expect, it } from 'vitest';
import type { HomeCase } from '../../src/facts/case-facts.js';
import { disk } from '../../src/publish/disk.js';
import { load } from '../../src/publish/load.js';
import { printPdf } from '../../src/publish/pdf/print.js';
import type { Language } from '../../src/words/language.js';
import { ownerSheet } from '../../src/words/owner/owner-sheet.js';
import { DEMO } from '../publish/clinic.js';

const demo = load(
  DEMO,
  disk(() => {}),
);
if (!demo.ok) throw new Error('The demonstration cases cannot be read.');
const facts = demo.value.cases[0]?.facts as HomeCase;
const english = demo.value.content.languages.get('en') as Language;

/** The first case with one medicine, so many doses of it, `hours` apart. */
function course(count: number, hours: number): HomeCase {
  const [medicine] = facts.home.medicines;
  if (!medicine) throw new Error('The case has no medicine.');
  const start = Date.UTC(2026, 0, 1, 8);
  const value = Array.from({ length: count }, (_, index) =>
    new Date(start + index * hours * 3_600_000).toISOString().replace(':00.000Z', '+00:00'),
  );
  return {
    ...facts,
    home: { ...facts.home, medicines: [{ ...medicine, doses: { ...medicine.doses, value } }] },
  };
}

const boxes = (given: HomeCase): number =>
  ownerSheet(given, english, []).blocks.flatMap((block) =>
    block.kind === 'table'
      ? block.rows
          .flat()
          .flatMap((cell) => (cell.kind === 'ticks' ? cell.days.flatMap((d) => d.boxes) : []))
      : [],
  ).length;

it.each([
  [10, 12, 10],
  [42, 24, 42],
  [112, 24, 42],
  [400, 4, 82],
])('gives %i doses, %i hours apart, %i boxes in whole days', (count, hours, expected) => {
  expect(boxes(course(count, hours))).toBe(expected);
});

it('prints a course of any length', async () => {
  for (const [count, hours] of [
    [365, 24],
    [1000, 1],
  ] as const) {
    expect((await printPdf(ownerSheet(course(count, hours), english, []))).length).toBeGreaterThan(
      10_000,
    );
  }
});

it('says that a course goes on where its boxes end', () => {
  const words = JSON.stringify(ownerSheet(course(112, 24), english, []));
  expect(words).toContain('boxes for the first 42 doses');
  expect(JSON.stringify(ownerSheet(course(10, 12), english, []))).not.toContain(
    'boxes for the first',
  );
});

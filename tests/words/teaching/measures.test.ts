import { describe, expect, it } from 'vitest';
import { publicFacts } from '../../../src/privacy/public-facts.js';
import { TOLERANCE } from '../../../src/signal/measures/measure.js';
import { textOf } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import { breathPart } from '../../../src/words/teaching/breath.js';
import { drugsPart } from '../../../src/words/teaching/events.js';
import { intervalsPart } from '../../../src/words/teaching/intervals.js';
import type { CaseFigures, LearnerSection } from '../../../src/words/teaching/learner-section.js';
import { rhythmPart } from '../../../src/words/teaching/rhythm.js';
import { ratePart } from '../../../src/words/teaching/strip.js';
import { demo, OPEN_VEIL } from '../../facts/demo.js';

function told(name: string, part: LearnerSection, tag = 'en'): string {
  const facts = demo.cases.find((one) => one.name === name)?.facts;
  const open = facts && publicFacts(facts, OPEN_VEIL);
  const language = demo.content.languages.get(tag) as Language;
  if (!open) throw new Error(`no published case ${name}`);
  return textOf(part(open, language, {} as CaseFigures));
}

describe('the measures of a strip', () => {
  it('bear one name each: the steep part of the average is not the QRS from onset to end', () => {
    expect(told('saffron', rhythmPart)).toMatch(/steep part of the averaged QRS 0\.0\d\d s/);
    expect(told('saffron', rhythmPart)).not.toMatch(/(?<!averaged )QRS 0\.0\d\d s/);
    expect(told('saffron', intervalsPart)).toContain('QRS duration, onset to end');
  });

  it('tell the tolerance by which a value over its limit is within', () => {
    const table = told('saffron', intervalsPart);
    expect(table).toContain(`by more than ${TOLERANCE.s} s`);
    // Nothing is judged for a rabbit, so nothing is tolerated.
    expect(told('clover', intervalsPart)).not.toContain('by more than');
  });

  it('tell intervals as finely as the rates beside them', () => {
    for (const { name } of demo.cases) {
      const found = told(name, ratePart).matchAll(/(\d+) ms \((\d+) beats\/min\)/g);
      const pairs = [...found].map(([, interval, rate]) => [Number(interval), Number(rate)]);
      expect(pairs).toHaveLength(2);
      for (const [interval, rate] of pairs as [number, number][]) {
        // Half a millisecond of rounding, and half a beat.
        expect(Math.abs(60_000 / interval - rate)).toBeLessThanOrEqual(
          0.5 + 60_000 / (interval - 0.5) - 60_000 / interval,
        );
      }
    }
  });
});

it('folds the reasons behind those that decide', () => {
  const text = told('bramble', rhythmPart);
  expect(text).toContain('What decides: a P wave stands before 49 of 49 beats; from P to QRS');
  expect(text).toContain('All 21 measurements behind this');
});

it('does not count the strip itself among the copies that followed the breath', () => {
  expect(told('juniper', breathPart)).toContain('None of 999 shuffled copies');
  expect(told('juniper', breathPart)).toContain('p = 0.001');
  expect(told('juniper', breathPart, 'es')).toContain('Ninguna de 999 copias');
});

it('tells a fluid in mL/kg', () => {
  expect(told('saffron', drugsPart)).toContain('10 mL/kg');
  expect(told('saffron', drugsPart)).not.toContain('not stated');
});

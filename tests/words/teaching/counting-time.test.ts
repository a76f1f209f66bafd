import { describe, expect, it } from 'vitest';
import { type PublicFacts, publicFacts } from '../../../src/privacy/public-facts.js';
import { textOf } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import type { CaseFigures } from '../../../src/words/teaching/learner-section.js';
import { ratePart } from '../../../src/words/teaching/strip.js';
import { ofEachStrip } from '../../../src/words/teaching/strip-section.js';
import { demo, OPEN_VEIL } from '../../facts/demo.js';

const saffron = demo.cases.find(({ name }) => name === 'saffron');
const facts = saffron && publicFacts(saffron.facts, OPEN_VEIL);

/** What is said of the rate where these two counting times were found, s. */
function told(tag: string, longEnough: number, steadyFrom: number | null): string {
  const strips = facts?.strips.map((strip) => ({
    ...strip,
    analysis: { ...strip.analysis, rate: { ...strip.analysis.rate, longEnough, steadyFrom } },
  }));
  const language = demo.content.languages.get(tag) as Language;
  return textOf(
    ofEachStrip(ratePart)(
      { ...facts, strips } as unknown as PublicFacts,
      language,
      {} as CaseFigures,
    ),
  );
}

describe('how long to count', () => {
  it('is the time from which every longer one fits too, and the shortest is told beside it', () => {
    expect(told('en', 7, 38)).toContain('Counting for at least 38 s would have kept every count');
    expect(told('en', 7, 38)).toContain('Just 7 s would have done so too, but not every time');
    expect(told('es', 7, 38)).toContain('Contar al menos 38 s');
    expect(told('es', 7, 38)).not.toContain('al menos 7 s');
  });

  it('is one time where both are the same', () => {
    expect(told('en', 7, 7)).toContain('Counting for at least 7 s would have kept every count');
    expect(told('en', 7, 7)).not.toContain('between the two');
  });

  it('is never told as "at least" where longer times failed up to the end of the strip', () => {
    expect(told('en', 7, null)).toContain('Counting for just 7 s');
    expect(told('en', 7, null)).not.toContain('at least');
    expect(told('es', 7, null)).not.toContain('al menos');
  });
});

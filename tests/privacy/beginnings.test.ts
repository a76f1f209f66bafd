import { describe, expect, it } from 'vitest';
import { beginningsIn } from '../../src/privacy/search/beginnings.js';
import { readerOf } from '../../src/privacy/search/read.js';
import { soughtFrom } from '../../src/privacy/search/search.js';
import { randomFrom } from '../synth/random.js';

/** How often something is read on in a drawing of many numbers, as nearly all published bytes are. */
function readOnIn(texts: readonly string[]): number {
  const random = randomFrom(1);
  const numbers = Array.from({ length: 20_000 }, () => random.between(0, 100).toFixed(2));
  const bytes = new TextEncoder().encode(`<path d="M${numbers.join(' l')}" stroke="#101010"/>`);
  const { firstLetters } = soughtFrom(texts.map((text) => ({ what: 'an identifier', text })));
  let count = 0;
  beginningsIn(bytes, readerOf(bytes, 'UTF-8'), firstLetters, () => count++);
  return count;
}

describe('places where a spelling may begin', () => {
  it('are next to none in a drawing where few identifiers are sought', () => {
    expect(readOnIn(['Marisol Quintanar'])).toBeLessThan(5);
    expect(readOnIn(['+1 612 555 0173'])).toBeLessThan(20);
    expect(readOnIn(['985112004567123'])).toBeLessThan(50);
  });
});

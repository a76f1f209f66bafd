import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { markdownBlocks } from '../../src/words/markdown.js';
import { readingLevel } from '../../src/words/reading/reading-level.js';
import { passagesOf, sentencesOf } from '../../src/words/reading/sentences.js';

/**
 * The page for clients on what the public may see, held to the yardsticks of the owner's sheet: grade six by
 * Flesch-Kincaid and SMOG in English, by Fernández Huerta and Crawford in Spanish (sources: `words/reading/formulas.ts`).
 */
function sentencesOfPage(tag: string) {
  const page = readFileSync(new URL(`../../content/${tag}/privacy.md`, import.meta.url), 'utf8');
  const body = page.replace(/^---\n[\s\S]*?\n---\n/, '');
  return sentencesOf(passagesOf(markdownBlocks(body)), tag);
}

describe.each(['en', 'es'])('the page on privacy, %s', (tag) => {
  const sentences = sentencesOfPage(tag);
  const level = readingLevel(sentences, tag);

  it('is read as a whole', () => {
    expect(sentences.length).toBeGreaterThan(20);
    expect(level?.counts.words).toBeGreaterThan(250);
  });

  it('can be read by who has finished grade six, by both formulas', () => {
    const hardest = level?.hardest.map(({ text }) => text).join('\n');
    for (const { name, value, fits } of level?.measures ?? []) {
      expect(fits, `${name} ${value}. Hardest:\n${hardest}`).toBe(true);
    }
    expect(level?.measures).toHaveLength(2);
  });
});

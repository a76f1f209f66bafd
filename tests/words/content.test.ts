import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { flatten } from '../../src/words/phrasebook.js';
import { placeholders } from '../tools/placeholders.js';

const messages = (language: string, file: string) =>
  flatten(
    parse(readFileSync(new URL(`../../content/${language}/${file}.yaml`, import.meta.url), 'utf8')),
  );

it('finds the placeholders of a message', () => {
  expect(
    placeholders(
      '{count, plural, one {{shown} x} other {# {y}}} {food, select, with {a} other {}}',
      'en',
    ),
  ).toEqual(['count', 'food', 'shown', 'y']);
});

describe.each([
  ...[
    'owner',
    'learner',
    'trade',
    'procedures',
    'purposes',
    'rhythms',
    'reasons',
    'library',
    'site',
  ],
])('content/*/%s.yaml', (file) => {
  const en = messages('en', file);
  const es = messages('es', file);

  it('has the same keys in English and Spanish', () => {
    expect(Object.keys(es)).toEqual(Object.keys(en));
  });

  it('asks for the same values in both languages', () => {
    for (const [key, message] of Object.entries(en)) {
      expect(placeholders(es[key] ?? '', 'es'), key).toEqual(placeholders(message, 'en'));
    }
  });

  it('says no sentence of four words or more in English to a Spanish reader', () => {
    for (const [key, message] of Object.entries(en)) {
      const spoken = message.replace(/\{[^{}]*\}|\b(count|plural|select|one|other)\b/g, '');
      const words = spoken.match(/\p{L}{2,}/gu) ?? [];
      if (words.length >= 4) expect(es[key], key).not.toBe(message);
    }
  });

  it('makes the same number of passages strong in both languages', () => {
    for (const [key, message] of Object.entries(en)) {
      expect(es[key]?.split('**').length, key).toBe(message.split('**').length);
    }
  });
});

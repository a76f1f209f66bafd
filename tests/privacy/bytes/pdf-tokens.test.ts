import { describe, expect, it } from 'vitest';
import { tokensIn } from '../../../src/privacy/bytes/pdf-tokens.js';

const bytesOf = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const stringIn = (text: string): string => {
  const [token] = tokensIn(bytesOf(text));
  return token?.kind === 'string' ? String.fromCharCode(...token.bytes) : `no string: ${text}`;
};
const nameIn = (text: string): string => {
  const [token] = tokensIn(bytesOf(text));
  return token?.kind === 'name' ? token.text : `no name: ${text}`;
};

// Examples of ISO 32000-1. The sections 7.3.4.3 and 7.3.5 and their examples were compared with a public copy of that
// text; the numbers 7.3.4.2 and 7.2.3 are from memory, unverified.
describe('a string in brackets (ISO 32000-1, 7.3.4.2)', () => {
  it.each([
    ['(These \\\ntwo strings \\\nare the same.)', 'These two strings are the same.'],
    ['(These \\\r\ntwo strings \\\rare the same.)', 'These two strings are the same.'],
    [
      '(Strings may contain balanced parentheses ( ) (x).)',
      'Strings may contain balanced parentheses ( ) (x).',
    ],
    ['(\\245\\307)', '\u00a5\u00c7'],
    ['(\\0053)', '\u00053'],
    ['(\\053)', '+'],
    ['(\\53)', '+'],
    ['(\\n\\r\\t\\b\\f\\(\\)\\\\)', '\n\r\t\b\f()\\'],
  ])('is read as the standard reads it: %j', (written, said) => {
    expect(stringIn(written)).toBe(said);
  });
});

it.each([
  ['<4E6F762073686D6F7A206B6120706F702E>', 'Nov shmoz ka pop.'],
  ['<901FA3>', '\u0090\u001f\u00a3'],
  ['<901FA>', '\u0090\u001f\u00a0'],
  ['<4e 6F\n76>', 'Nov'],
])('a string of digits is read as the standard reads it (7.3.4.3): %j', (written, said) => {
  expect(stringIn(written)).toBe(said);
});

it.each([
  ['/Lime#20Green', 'Lime Green'],
  ['/paired#28#29parentheses', 'paired()parentheses'],
  ['/A#42', 'AB'],
  ['/The_Key_of_F#23_Minor', 'The_Key_of_F#_Minor'],
])('a name is read as the standard reads it (7.3.5): %s', (written, said) => {
  expect(nameIn(written)).toBe(said);
});

it('a comment is passed over to the end of its line (7.2.3)', () => {
  expect(stringIn('% comment (/%) blah\r(abc)')).toBe('abc');
  expect(tokensIn(bytesOf('% nothing else'))).toEqual([]);
});

import { describe, expect, it } from 'vitest';
import { NO_OWN_TEXT } from '../../src/privacy/own-text.js';
import { proofFor } from '../../src/privacy/proof.js';
import { soughtFrom } from '../../src/privacy/search/search.js';

const problemsOf = proofFor(
  soughtFrom([{ what: "the owner's name", text: 'Marrowby' }]),
  NO_OWN_TEXT,
);
const found = (text: string) =>
  problemsOf({ file: 'x.js', path: 'x.js', bytes: new TextEncoder().encode(text) }).length;

// The standards say these; the numbers of their sections are from memory, unverified.
describe('a name is found', () => {
  it.each([
    ['with a letter as an entity by number (HTML, 13.1.4)', 'M&#97;rrowby'],
    ['with one by hexadecimal number', 'M&#x61;rrowby'],
    ['with an accented letter by name', 'M&aacute;rrowby'],
    ['with a code unit (ECMA-404, 9)', 'M\\u0061rrowby'],
    ['with a code point (ECMA-262, 12.9.4)', 'M\\u{61}rrowby'],
    ['with a byte of a script', 'M\\x61rrowby'],
    ['with a byte in octal', 'M\\141rrowby'],
    ['with an escape of a style (CSS Syntax 3, 4.3.7)', 'M\\0061 rrowby'],
    ['parted by a line that goes on', 'Marr\\\nowby'],
    ['parted by a line that goes on, as some systems end lines', 'Marr\\\r\nowby'],
    ['in an address (RFC 3986, 2.1)', 'M%61rrowby'],
    ['in a mail (RFC 2045, 6.7)', 'M=61rrowby'],
    ['parted by a line of a mail', 'Marr=\nowby'],
    ['parted by a line of a mail, as mails end lines', 'Marr=\r\nowby'],
  ])('%s', (_, written) => {
    expect(found(`a = "${written}";`)).toBeGreaterThan(0);
  });

  it('not where an escape stands for another letter, or for none', () => {
    for (const other of ['M\\u0062rrowby', 'M&#98;rrowby', 'M&#xd800;rrowby', 'M&nosuch;rrowby']) {
      expect(found(`a = "${other}";`), other).toBe(0);
    }
  });
});

it('a letter beyond the first plane is found as a pair of code units (ECMA-404, 9)', () => {
  const pair = proofFor(
    soughtFrom([{ what: "the owner's name", text: '\u{20bb7}\u{91ce}\u{5bb6}' }]),
    NO_OWN_TEXT,
  );
  const bytes = new TextEncoder().encode('"\\ud842\\udfb7\\u91ce\\u5bb6"');
  expect(pair({ file: 'x.js', path: 'x.js', bytes }).length).toBeGreaterThan(0);
});

import { execFileSync } from 'node:child_process';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { inLetters, inSyllables } from '../../src/privacy/letters.js';
import { searchFor, soughtFrom } from '../../src/privacy/search/search.js';
import { shifted, veilOf } from '../../src/privacy/veil.js';
import { keyedHash } from '../../src/publish/pseudonym-key.js';
import { hasProgram } from '../publish/programs.js';

const KEY = '8f2ab64c0d7e915b3c8aa1f09e6d4427b5c0133f7a2e98d6410bcf5e72a9d83e';
const OTHER = KEY.replace('8f', '8e');
const day = fc.date({
  min: new Date('2000-01-01'),
  max: new Date('2060-01-01'),
  noInvalidDate: true,
});
const time = day.map((date) => date.toISOString().slice(0, 16));
const weekday = (text: string) => Temporal.PlainDate.from(text.slice(0, 10)).dayOfWeek;

describe('the keyed hash', () => {
  it.skipIf(!hasProgram('openssl'))('is what openssl computes', () => {
    const said = execFileSync(
      'openssl',
      ['dgst', '-sha256', '-mac', 'HMAC', '-macopt', `hexkey:${KEY}`],
      { input: Buffer.concat([Buffer.from('pseudonym'), Buffer.of(0), Buffer.from('2026-0117')]) },
    ).toString();
    expect(said.trim()).toMatch(
      new RegExp(`${Buffer.from(keyedHash(KEY)('pseudonym', '2026-0117')).toString('hex')}$`),
    );
  });
});

describe('the pseudonym of a case', () => {
  const name = (record: string, key = KEY) => veilOf(record, keyedHash(key)).pseudonym;

  it('is the remainder of the hash, two letters and a digit by turns', () => {
    let left = BigInt(`0x${Buffer.from(keyedHash(KEY)('pseudonym', '2026-0117')).toString('hex')}`);
    let written = '';
    for (let place = 0; place < 18; place++) {
      const signs = place % 3 === 2 ? '0123456789' : 'abcdefghjkmnpqrstvwxyz';
      written += signs[Number(left % BigInt(signs.length))];
      left /= BigInt(signs.length);
    }
    expect(name('2026-0117')).toBe(written);
    expect(inSyllables(Uint8Array.of(0, 1, 0), 1)).toBe('rn0');
  });

  it('spells no day, no name and no number, as digits and letters in any order do', () => {
    const records = Array.from({ length: 3000 }, (_, i) => `R-${i}`);
    const words = fc.sample(fc.stringMatching(/^[A-Z][a-z]{3,5}$/), { numRuns: 3000, seed: 7 });
    const search = searchFor(
      soughtFrom([
        ...Array.from({ length: 366 }, (_, i) => ({
          what: 'a day',
          text: new Date(Date.UTC(2028, 0, 1 + i)).toISOString().slice(0, 10),
        })),
        ...words.map((text) => ({ what: 'a name', text })),
        ...Array.from({ length: 3000 }, (_, i) => ({
          what: 'a number',
          text: `${17 * i + 10_000}`,
        })),
        // Of letters and digits by turns, as postal codes of Canada are.
        { what: 'a code', text: 'K1A 0B1' },
      ]),
    );
    const spells = (text: string) =>
      search({ bytes: Buffer.from(`"${text}"`), sort: 'text', wide: false }).length > 0;
    const inAnyOrder = (record: string) => inLetters(keyedHash(KEY)('pseudonym', record), 16);
    expect(spells('0e2wp83jan7mpkn3')).toBe(true);
    expect(records.filter((record) => spells(inAnyOrder(record))).length).toBeGreaterThan(0);
    expect(records.filter((record) => spells(name(record)))).toEqual([]);
    expect(new Set(records.map((record) => name(record))).size).toBe(records.length);
  });

  it('stays from build to build, and differs for each record and each key', () => {
    expect(name('2026-0117')).toBe(name('2026-0117'));
    const records = Array.from({ length: 2000 }, (_, i) => `2026-${i}`);
    const names = [...records.map((record) => name(record)), name('2026-0', OTHER)];
    expect(new Set(names).size).toBe(2001);
    for (const one of names) expect(one).toMatch(/^([a-hjkmnp-tv-z]{2}[0-9]){6}$/);
  });

  it('is not found by hashing every record number without the key', () => {
    const wanted = name('2026-0117');
    const guesses = ['', '00', '2026-0117', OTHER].flatMap((key) =>
      Array.from({ length: 500 }, (_, i) => {
        const record = `2026-${String(i).padStart(4, '0')}`;
        return veilOf(record, keyedHash(Buffer.from(key).toString('hex'))).pseudonym;
      }),
    );
    expect(guesses).not.toContain(wanted);
  });
});

describe('the dates of a case', () => {
  const { weeks } = veilOf('2026-0117', keyedHash(KEY));

  it('are moved by whole weeks, 100 to 200 years on, so that none is a true one', () => {
    for (let i = 0; i < 500; i++) {
      const { weeks: some } = veilOf(`${i}`, keyedHash(KEY));
      expect(Number.isInteger(some)).toBe(true);
      expect(some).toBeGreaterThanOrEqual(5218);
      expect(some).toBeLessThanOrEqual(10_435);
    }
    expect(shifted('2026-03-10', 5218) > '2126-01-01').toBe(true);
  });

  it('use the whole range: half of many cases lies in either half of it', () => {
    const all = Array.from({ length: 1000 }, (_, i) => veilOf(`${i}`, keyedHash(KEY)).weeks);
    const late = all.filter((some) => some > 7826).length;
    // 500 of 1000 with a standard deviation of 16.
    expect(Math.abs(late - 500)).toBeLessThan(80);
    expect(new Set(all).size).toBeGreaterThan(850);
  });

  it('keep intervals, the day of the week and the time of day', () => {
    fc.assert(
      fc.property(time, time, (from, to) => {
        const span = (a: string, b: string) =>
          Temporal.PlainDateTime.from(a).until(b).total('minutes');
        expect(span(shifted(from, weeks), shifted(to, weeks))).toBe(span(from, to));
        expect(weekday(shifted(from, weeks))).toBe(weekday(from));
        expect(shifted(from, weeks).slice(11)).toBe(from.slice(11));
        expect(shifted(from.slice(0, 10), weeks)).toBe(shifted(from, weeks).slice(0, 10));
      }),
    );
  });

  it.skipIf(!hasProgram('python3'))('are those that another calendar gives', () => {
    const said = execFileSync('python3', [
      '-c',
      `import datetime as d; print(d.datetime(2026,3,10,9,40)+d.timedelta(weeks=${weeks}))`,
    ]).toString();
    expect(shifted('2026-03-10T09:40', weeks)).toBe(said.trim().replace(' ', 'T').slice(0, 16));
  });
});

import { randomBytes } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { keyWeakness } from '../../src/privacy/key-strength.js';

describe('a key', () => {
  it.each<[what: string, key: string, found: string]>([
    ['of words', 'seven blue buckets under the old stair', 'other signs'],
    ['of words run together', 'correcthorsebatterystaple', 'other signs'],
    ['of 124 bits', '8f2ab64c0d7e915b3c8aa1f09e6d442', '31 digits'],
    ['that is empty', '', '0 digits'],
    ['of one digit', '0'.repeat(64), 'repeats'],
    ['of a short piece over and over', 'deadbeef'.repeat(8), 'repeats'],
    ['of a longer piece twice', '8f2ab64c0d7e915b3c8aa1f0'.repeat(2), 'repeats'],
    ['that counts in digits', '0123456789abcdef0123456789abcdef', 'repeats'],
    [
      'that counts in bytes',
      Array.from({ length: 32 }, (_, i) => i.toString(16).padStart(2, '0')).join(''),
      'count up or down',
    ],
    ['of written words in digits', Buffer.from('the clinic by the river').toString('hex'), 'words'],
    ['with half a byte', '8f2ab64c0d7e915b3c8aa1f09e6d4427b', 'odd number'],
  ])('%s is refused', (_, key, found) => {
    expect(keyWeakness(key)).toContain(found);
  });

  it('drawn at random is taken, 128 bits and more', () => {
    for (const length of [16, 20, 32]) {
      for (let i = 0; i < 300; i++) {
        const key = randomBytes(length).toString('hex');
        expect(keyWeakness(key), key).toBeNull();
      }
    }
  });
});

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { placesIn } from '../../src/privacy/places.js';

it('finds what matchAll finds, empty places included, however often it is asked', () => {
  const forms = [/\p{L}+/gu, /(?<=a)b?/g, /^x|y$/gm, /b*/g];
  const letters = fc.string({ unit: fc.constantFrom('a', 'b', 'x', 'y', ' ', '\n', 'é') });
  fc.assert(
    fc.property(letters, fc.constantFrom(...forms), (text, form) => {
      for (let turn = 0; turn < 2; turn++) {
        expect(placesIn(text, form)).toEqual([...text.matchAll(form)]);
      }
    }),
  );
});

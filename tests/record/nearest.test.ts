import { expect, it } from 'vitest';
import { nearest } from '../../src/record/nearest.js';

it.each([
  ['wieght', 'weight'],
  ['Weigth', 'weight'],
  ['specie', 'species'],
  ['naem', 'name'],
])('takes "%s" for "%s"', (word, meant) => {
  expect(nearest(word, ['name', 'species', 'weight'])).toBe(meant);
});

it('suggests nothing where nothing is close', () => {
  expect(nearest('colour', ['name', 'species', 'weight'])).toBeNull();
  expect(nearest('dog', [])).toBeNull();
});

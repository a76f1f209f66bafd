import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { inks } from '../../src/draw/inks.js';
import { contrast } from '../tools/contrast.js';

/** WCAG 2.2, 1.4.3: text that is not large. */
const TEXT = 4.5;
/** WCAG 2.2, 1.4.11: frames and marks that must be seen. */
const MARKS = 3;

it('reckons contrast as WCAG does', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
  // The grey that just passes on white.
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
  expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
});

describe('the inks', () => {
  it.each(['ink', 'soft', 'faint', 'accent'] as const)(
    'let %s be read as text on paper and tint, without its hue',
    (name) => {
      expect(contrast(inks[name], inks.paper)).toBeGreaterThanOrEqual(TEXT);
      if (name !== 'faint') expect(contrast(inks[name], inks.tint)).toBeGreaterThanOrEqual(TEXT);
    },
  );

  it('let the frame of the one thing to remember and the warning sign be seen in grey', () => {
    expect(contrast(inks.accent, inks.paper)).toBeGreaterThanOrEqual(MARKS);
    expect(contrast(inks.accent, inks.tint)).toBeGreaterThanOrEqual(MARKS);
    expect(contrast(inks.paper, inks.ink)).toBeGreaterThanOrEqual(MARKS);
  });
});

describe('the colours of the pages', () => {
  const css = readFileSync(new URL('../../templates/shared/style.css', import.meta.url), 'utf8');
  const colour = (name: string) =>
    new RegExp(`^  --${name}: (#[0-9a-f]{6});`, 'm').exec(css)?.[1] as string;

  it.each(['ink', 'soft', 'accent'])('let %s be read on paper and wash', (name) => {
    expect(contrast(colour(name), colour('paper'))).toBeGreaterThanOrEqual(TEXT);
    expect(contrast(colour(name), colour('wash'))).toBeGreaterThanOrEqual(TEXT);
  });

  it('are all there are: none stands outside the list', () => {
    const outside = [...css.matchAll(/#[0-9a-f]{3,8}\b|\b(?:rgb|hsl|lab|lch|oklch)a?\(/g)].map(
      ([found]) => found,
    );
    expect(outside).toHaveLength(6);
  });
});

import { describe, expect, it } from 'vitest';
import type { Drawing, Point } from '../../src/draw/drawing.js';
import { inks } from '../../src/draw/inks.js';
import { collarOn } from '../../src/draw/message/collar.js';
import { dryBandage } from '../../src/draw/message/dry-bandage.js';
import { eatingHay } from '../../src/draw/message/hay.js';
import type { HomeCase } from '../../src/facts/case-facts.js';
import { firstThing } from '../../src/words/owner/first-thing.js';
import { demo } from '../facts/demo.js';

const PICTURES: Readonly<Record<string, () => Drawing>> = {
  dog: () => collarOn('dog'),
  cat: () => collarOn('cat'),
  ferret: () => collarOn('ferret'),
  rabbit: eatingHay,
  bandage: dryBandage,
};

const pointsOf = ({ marks }: Drawing): Point[] =>
  marks.flatMap((mark): readonly Point[] => {
    if (mark.kind === 'text') throw new Error('a picture has no letters');
    return mark.kind === 'circle' ? [mark.centre] : mark.points;
  });

/** Relative luminance by WCAG 2.2. */
function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((from) => {
    const share = Number.parseInt(colour.slice(from, from + 2), 16) / 255;
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

describe.each(Object.entries(PICTURES))('the picture of the main message, %s', (_, draw) => {
  it('stays within its box, and that within a third of a narrow column', () => {
    const { width, height } = draw();
    const all = pointsOf(draw());
    expect(Math.min(...all.map(([x]) => x))).toBeGreaterThanOrEqual(-0.1);
    expect(Math.max(...all.map(([x]) => x))).toBeLessThanOrEqual(width + 0.1);
    expect(Math.min(...all.map(([, y]) => y))).toBeGreaterThanOrEqual(-0.1);
    expect(Math.max(...all.map(([, y]) => y))).toBeLessThanOrEqual(height + 0.1);
    expect(width).toBeLessThan(30);
  });

  it('is drawn in black lines, which stand out from paper and tint by 3 : 1 (WCAG 1.4.11)', () => {
    const lines = draw().marks.flatMap((mark) =>
      mark.kind !== 'text' && mark.stroke ? [mark.stroke.colour] : [],
    );
    expect(lines.length).toBeGreaterThan(5);
    for (const colour of lines.filter((one) => one !== inks.paper)) {
      expect((luminance(inks.tint) + 0.05) / (luminance(colour) + 0.05)).toBeGreaterThan(3);
    }
  });
});

it('draws each in its own way, and the same each time', () => {
  const all = Object.values(PICTURES).map((draw) => JSON.stringify(draw()));
  expect(new Set(all).size).toBe(all.length);
  expect(Object.values(PICTURES).map((draw) => JSON.stringify(draw()))).toEqual(all);
});

describe('the frame of the main message', () => {
  const of = (name: string) => demo.cases.find((one) => one.name === name)?.facts as HomeCase;
  const pictureOf = (facts: HomeCase, tag = 'en') => {
    const [block] = firstThing(facts, demo.content.languages.get(tag) as never);
    return block?.kind === 'callout' && block.tone === 'first' ? (block.picture ?? null) : null;
  };
  const shown = (facts: HomeCase) => {
    const picture = pictureOf(facts);
    return picture?.figure.kind === 'drawing' ? picture.figure.drawing : null;
  };

  it.each([
    ['juniper', 'dog'],
    ['saffron', 'cat'],
    ['clover', 'rabbit'],
    ['pumpernickel', 'bandage'],
  ])('of %s shows the %s', (name, picture) => {
    expect(shown(of(name))).toEqual(PICTURES[picture]?.());
  });

  it('shows a ferret in its collar, and says so in words in each language', () => {
    const facts = of('saffron');
    const species = { ...facts.patient.species, value: 'ferret' as const };
    const ferret = { ...facts, patient: { ...facts.patient, species } };
    expect(shown(ferret)).toEqual(PICTURES.ferret?.());
    expect(pictureOf(ferret)?.alternative).toMatch(/head of a ferret .* cone/);
    expect(pictureOf(ferret, 'es')?.alternative).toMatch(/cabeza de un hurón .* cono/);
  });

  it('shows nothing where the message is rest alone', () => {
    const facts = of('juniper');
    const collarUntil = { value: null, why: 'no collar' } as const;
    expect(pictureOf({ ...facts, home: { ...facts.home, collarUntil } })).toBeNull();
  });
});

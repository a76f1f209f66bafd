import { describe, expect, it } from 'vitest';
import type { Drawing, Mark, Point } from '../../../src/draw/drawing.js';
import type { SkinClosure } from '../../../src/draw/incision/drawn-wound.js';
import { type IncisionPicture, incision } from '../../../src/draw/incision/incision.js';
import { toSvg } from '../../../src/draw/svg.js';
import { advanceOf } from '../../../src/publish/pdf/typefaces.js';
import { incisionPictures } from '../../../src/words/owner/incision-pictures.js';
import { demo } from '../../facts/demo.js';

const CLOSURES: readonly SkinClosure[] = [
  ...(['stitches', 'crossed stitches', 'running stitch'] as const),
  ...(['staples', 'buried', 'glue', 'open'] as const),
];
const LABELS: IncisionPicture['labels'] = {
  edges: 'The edges touch',
  holder: 'A stitch is loose or gone, with a long label',
  around: 'Red, hot and swollen',
  fluid: 'Pus or blood',
};
const ALL = CLOSURES.flatMap((closure) =>
  (['good', 'bad'] as const).flatMap((looks) =>
    [false, true].map(
      (drain): IncisionPicture => ({
        ...{ looks, closure, drain, labels: LABELS },
        title: looks === 'good' ? 'This looks right' : 'Call us',
      }),
    ),
  ),
);

/** As the face itself has it. */
const widthOf = ({ text, size, weight }: Extract<Mark, { kind: 'text' }>): number =>
  (advanceOf(weight === 'bold' ? 'bold' : 'regular', text, false) / 1000) * size;

function points(mark: Mark): readonly Point[] {
  switch (mark.kind) {
    case 'line':
    case 'area':
      return mark.points;
    case 'circle': {
      const [x, y] = mark.centre;
      return [
        [x - mark.radius, y - mark.radius],
        [x + mark.radius, y + mark.radius],
      ];
    }
    case 'text':
      return [
        [mark.at[0], mark.at[1] - mark.size * 0.8],
        [mark.at[0] + widthOf(mark), mark.at[1] + mark.size * 0.25],
      ];
  }
}

/** Boxes of the texts: left, top, right, bottom. */
const texts = ({ marks }: Drawing) =>
  marks.flatMap((mark) => (mark.kind === 'text' ? [{ text: mark.text, box: points(mark) }] : []));

describe.each(ALL)('the $looks picture of $closure, drain $drain', (picture) => {
  const drawing = incision(picture);

  it('stays within its box', () => {
    const all = drawing.marks.flatMap(points);
    expect(Math.min(...all.map(([x]) => x))).toBeGreaterThanOrEqual(-0.3);
    expect(Math.max(...all.map(([x]) => x))).toBeLessThanOrEqual(drawing.width + 0.3);
    expect(Math.min(...all.map(([, y]) => y))).toBeGreaterThanOrEqual(-0.3);
    expect(Math.max(...all.map(([, y]) => y))).toBeLessThanOrEqual(drawing.height + 0.3);
  });

  it('says every label, none on another one', () => {
    const said = texts(drawing);
    const words = said.map(({ text }) => text).join(' ');
    for (const label of Object.values(LABELS)) expect(words).toContain(label);
    said.forEach(({ box: a, text }, i) => {
      for (const { box: b, text: other } of said.slice(i + 1)) {
        const apart =
          (a[1] as Point)[1] <= (b[0] as Point)[1] + 0.3 ||
          (b[1] as Point)[1] <= (a[0] as Point)[1] + 0.3;
        expect(apart, `${text} / ${other}`).toBe(true);
      }
    });
  });

  it('is the same each time, and can be written', () => {
    expect(incision(picture)).toEqual(drawing);
    expect(toSvg(drawing, { title: 'a', description: 'b' })).toContain(
      `viewBox="0 0 ${drawing.width}`,
    );
  });
});

it('draws each closure and each look of it in its own way', () => {
  const shapes = ALL.map((picture) =>
    JSON.stringify(incision({ ...picture, title: '', labels: {} }).marks),
  );
  expect(new Set(shapes).size).toBe(ALL.length);
});

it('tells good from bad by more than colour: without inks the two still differ', () => {
  const outline = (looks: 'good' | 'bad') =>
    JSON.stringify(
      incision({ looks, closure: 'stitches', drain: false, title: '', labels: {} }).marks,
    ).replace(/#[0-9a-f]{6}/g, '');
  expect(outline('good')).not.toBe(outline('bad'));
});

it('refuses a word that is wider than its column', () => {
  expect(() =>
    incision({ ...(ALL[0] as IncisionPicture), labels: { edges: 'x'.repeat(60) } }),
  ).toThrow('too wide');
});

describe.each(demo.cases.map(({ name, facts }) => [name, facts] as const))(
  'the pictures of %s',
  (name, facts) => {
    const closures = {
      ...{ bramble: 'crossed', clover: 'No stitches', juniper: 'stitch', saffron: 'No stitches' },
      ...{ pumpernickel: 'Red, bumpy', tucker: 'staple' },
    } as Record<string, string>;

    it.each(['en', 'es'])('have a drawing and words for those who cannot see it, %s', (tag) => {
      const language = demo.content.languages.get(tag);
      if (!language) throw new Error(`There is no language ${tag}.`);
      const pair = incisionPictures(facts, language);
      if (pair.kind !== 'beside') throw new Error('The pictures stand side by side.');
      for (const figure of [...pair.left, ...pair.right]) {
        if (figure.kind !== 'figure' || figure.figure.kind !== 'drawing') {
          throw new Error('There is a drawing on each side.');
        }
        for (const { text } of texts(figure.figure.drawing).slice(0, -1)) {
          expect(figure.alternative).toContain(text.split(' ')[0]);
        }
      }
      if (tag === 'en' && name !== 'bramble') {
        expect(JSON.stringify(pair.left)).toContain(closures[name]);
      }
    });
  },
);

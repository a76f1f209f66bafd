import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { Mark, Point } from '../../../src/draw/drawing.js';
import { heart } from '../../../src/draw/heart/heart.js';
import { heartInks } from '../../../src/draw/heart/inks.js';
import { HEART_LABELS, type HeartLabel } from '../../../src/draw/heart/labels.js';
import { HEART } from '../../../src/draw/heart/place.js';
import { leftWall, rightWall, within } from '../../../src/draw/heart/shape.js';
import { leaflets } from '../../../src/draw/heart/valves.js';
import { toSvg } from '../../../src/draw/svg.js';
import { textWidth } from '../../../src/draw/text-width.js';
import { withinCircle } from '../../../src/draw/within-circle.js';
import { contrast, luminance } from '../../tools/contrast.js';

const labelsIn = (tag: string): Record<HeartLabel, string> =>
  parse(readFileSync(new URL(`../../../content/${tag}/learner.yaml`, import.meta.url), 'utf8'))
    .heart.labels;
const labels = labelsIn('en');

const pointsOf = (mark: Mark): readonly Point[] =>
  mark.kind === 'line' || mark.kind === 'area'
    ? mark.points
    : mark.kind === 'circle'
      ? [mark.centre]
      : [mark.at];
const fillsOf = (marks: readonly Mark[], part: string) =>
  marks.flatMap((mark) => (mark.kind === 'area' && mark.part?.name === part ? [mark.fill] : []));

describe.each(['en', 'es'])('the heart, labelled in %s', (tag) => {
  const { marks, width, height } = heart({ labels: labelsIn(tag) });
  const texts = marks.flatMap((mark) => (mark.kind === 'text' ? [mark] : []));

  it('names every part that it shows', () => {
    const said = texts.map(({ text }) => text).join(' ');
    expect(Object.keys(labelsIn(tag)).sort()).toEqual([...HEART_LABELS].sort());
    for (const label of Object.values(labelsIn(tag))) {
      for (const word of label.split(' ')) expect(said).toContain(word);
    }
  });

  it('stays within its sheet, and no word lies over another', () => {
    const points = marks.flatMap(pointsOf);
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    expect(Math.min(...xs, ...ys)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...xs)).toBeLessThanOrEqual(width);
    expect(Math.max(...ys)).toBeLessThanOrEqual(height);
    const boxes = texts.map(({ at: [x, y], text, size, align }) => {
      const long = textWidth(text, size);
      return {
        left: align === 'end' ? x - long : x,
        right: align === 'end' ? x : x + long,
        top: y - 0.75 * size,
        bottom: y + 0.2 * size,
      };
    });
    boxes.forEach((a, i) => {
      expect(a.left).toBeGreaterThanOrEqual(0);
      expect(a.right).toBeLessThanOrEqual(width);
      for (const b of boxes.slice(i + 1)) {
        const apart =
          a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
        expect(apart).toBe(true);
      }
    });
  });
});

describe('the heart as an anatomist wants it', () => {
  const thickness = ({ inner, outer }: typeof leftWall, at: number) => {
    const [[ax, ay], [bx, by]] = [inner(at), outer(at)];
    return Math.hypot(bx - ax, by - ay);
  };

  it('has the left wall at least twice as thick as the right (left thicker: common practice)', () => {
    for (const at of [0.3, 0.5, 0.7]) {
      expect(thickness(leftWall, 0.75)).toBeGreaterThan(2 * thickness(rightWall, at));
    }
  });

  it('shows the patient’s right on the left, and the apex below to the right', () => {
    const [rightX] = within(rightWall, 0.5, 0.5, 0.5)(0);
    const [leftX] = within(leftWall, 0.5, 0.75, 0.75)(0);
    const [apexX, apexY] = leftWall.outer(0.5);
    expect(rightX).toBeLessThan(leftX);
    expect(apexX).toBeGreaterThan((rightX + leftX) / 2);
    expect(apexY).toBeGreaterThan(leftWall.outer(0.2)[1]);
  });

  it('has two leaflets that meet where a valve is shut, and leave the way free where it is open', () => {
    for (const name of ['tricuspid', 'mitral', 'pulmonary', 'aortic'] as const) {
      const gap = (state: 'open' | 'shut') => {
        const [a, b] = leaflets(name, state).map((points) => points.at(-1) as Point) as [
          Point,
          Point,
        ];
        return Math.hypot(a[0] - b[0], a[1] - b[1]);
      };
      expect(gap('shut'), name).toBeLessThan(0.2);
      expect(gap('open'), name).toBeGreaterThan(4);
    }
  });
});

describe('the front', () => {
  const lit = (picture: Partial<Parameters<typeof heart>[0]>, part: string, fill: string) =>
    fillsOf(heart({ labels, ...picture }).marks, part).filter((each) => each === fill).length;

  it('crosses the right atrium before the left', () => {
    const half = heart({ labels, atria: 0.3 }).marks;
    expect(fillsOf(half, 'right atrium wall')).toContain(heartInks.excited);
    expect(fillsOf(half, 'left atrium wall')).not.toContain(heartInks.excited);
    expect(fillsOf(half, 'left ventricle wall')).not.toContain(heartInks.excited);
  });

  it('grows with its share, through all of the ventricles', () => {
    const shares = [0, 0.2, 0.4, 0.6, 0.8, 1].map((ventricles) =>
      lit({ ventricles }, 'left ventricle wall', heartInks.excited),
    );
    expect(shares[0]).toBe(0);
    expect(shares).toEqual([...new Set(shares)].sort((a, b) => a - b));
    const all = heart({ labels, ventricles: 1 }).marks;
    expect(new Set(fillsOf(all, 'left ventricle wall'))).toEqual(new Set([heartInks.excited]));
    expect(new Set(fillsOf(all, 'right ventricle wall'))).toEqual(new Set([heartInks.excited]));
  });

  it('starts in the septum and reaches the base of the free wall last', () => {
    const turns = heart({ labels }).marks.flatMap(({ part }) =>
      part?.name === 'left ventricle wall' ? [part.turn as number] : [],
    );
    const inner = turns.slice(0, turns.length / 2);
    expect(inner.indexOf(Math.min(...inner)) / inner.length).toBeLessThan(0.3);
    expect(inner.indexOf(Math.max(...inner))).toBe(inner.length - 1);
  });

  it('shows recovery in another tone', () => {
    const recovering = { ventricles: 1, recovering: true };
    expect(lit(recovering, 'left ventricle wall', heartInks.recovering)).toBeGreaterThan(0);
    expect(lit(recovering, 'left ventricle wall', heartInks.excited)).toBe(0);
  });
});

it('bears the names of its parts into the page, and the same shapes for the same input', () => {
  const words = { title: 'heart', description: 'a heart' };
  const svg = toSvg(heart({ labels }), words);
  for (const part of [
    'left ventricle wall',
    'right atrium back',
    'node',
    'bundle',
    'valve mitral',
  ]) {
    expect(svg).toContain(`data-part="${part}"`);
  }
  expect(svg).toBe(toSvg(heart({ labels }), words));
  expect(svg).toContain(`width="${HEART.width}mm"`);
});

it('keeps of an outline what lies within a circle', () => {
  const square: Point[] = [
    [0, 0],
    [10, 0],
    [10, 10],
    [0, 10],
  ];
  expect(withinCircle(square, [5, 5], 20)).toHaveLength(4);
  for (const [x, y] of withinCircle(square, [0, 0], 4)) {
    expect(Math.hypot(x, y)).toBeLessThanOrEqual(4 + 1e-9);
  }
  expect(withinCircle(square, [30, 30], 4)).toEqual([]);
});

describe('the tones of the page', () => {
  const css = readFileSync(new URL('../../../templates/shared/heart.css', import.meta.url), 'utf8');
  const blocks = [...css.matchAll(/--heart-muscle:[^}]+/g)].map(([block]) => {
    const tone = (name: string) =>
      new RegExp(`--heart-${name}: (#[0-9a-f]{6})`).exec(block)?.[1] as string;
    return { block, tone };
  });

  it('are the printed ones, by day and by night', () => {
    const [day] = blocks;
    expect(blocks).toHaveLength(1);
    for (const name of [
      'muscle',
      'excited',
      'recovering',
      'outline',
      'venous',
      'arterial',
      'path',
      'current',
    ] as const) {
      expect(day?.tone(name)).toBe(heartInks[name]);
    }
  });

  it.each([
    ['muscle', 'excited', 'recovering'],
    ['venous', 'arterial', 'excited-back', 'recovering-back'],
  ])(
    'differ by less than a flash between %s and what it turns to (WCAG 2.2, 2.3.1: a tenth)',
    (...names) => {
      for (const { tone } of blocks) {
        const all = names.map((name) => luminance(tone(name)));
        expect(Math.max(...all) - Math.min(...all)).toBeLessThan(0.1);
      }
    },
  );

  it('let the way of the current be seen on whatever lies under it', () => {
    for (const { tone } of blocks) {
      for (const under of ['muscle', 'excited', 'venous', 'arterial', 'excited-back']) {
        expect(contrast(tone('current'), tone(under)), under).toBeGreaterThanOrEqual(3);
      }
    }
  });
});

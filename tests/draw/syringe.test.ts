import { describe, expect, it } from 'vitest';
import { SYRINGES } from '../../src/care/measure.js';
import type { Mark } from '../../src/draw/drawing.js';
import { inks } from '../../src/draw/inks.js';
import { syringe } from '../../src/draw/syringe.js';

const drawn = (capacity: number, graduation: number, amount: number) =>
  syringe({ capacity, graduation, amount, label: `${amount} mL`, written: String });

type Line = Extract<Mark, { kind: 'line' }>;
const lines = (marks: readonly Mark[]) =>
  marks.filter((mark): mark is Line => mark.kind === 'line');
const xOf = ({ points }: Line) => (points[0] as readonly [number, number])[0];
const numbers = (marks: readonly Mark[]) =>
  new Map(
    marks.flatMap((mark) =>
      mark.kind === 'text' && mark.weight === 'regular'
        ? [[Number(mark.text), mark.at[0]] as const]
        : [],
    ),
  );
/** Where the line to fill to stands, mm from the left. */
const fillLine = (marks: readonly Mark[]) =>
  xOf(lines(marks).find(({ stroke }) => stroke.colour === inks.accent) as Line);

describe('the drawing of a syringe', () => {
  it.each(SYRINGES)('has a line for each $graduation mL of $capacity mL', (one) => {
    const { marks, width } = drawn(one.capacity, one.graduation, one.capacity);
    const upright = lines(marks).filter(
      ({ points, stroke }) => points.length === 2 && stroke.colour === inks.ink,
    );
    expect(upright).toHaveLength(Math.round(one.capacity / one.graduation));
    const at = numbers(marks);
    expect(at.size).toBeGreaterThanOrEqual(2);
    expect(at.size).toBeLessThanOrEqual(6);
    // Numbers lie on one even scale, which ends within the drawing.
    const perMillilitre = [...at].map(([value, x], _, [[first, from] = [0, 0]]) =>
      value === first ? null : (x - from) / (value - first),
    );
    const [, step] = perMillilitre;
    for (const other of perMillilitre.slice(1)) expect(other).toBeCloseTo(step as number, 6);
    expect(Math.max(...at.values())).toBeLessThan(width);
  });

  it('puts the line to fill to on the line of the amount', () => {
    const { marks } = drawn(3, 0.1, 1.5);
    expect(fillLine(marks)).toBeCloseTo(numbers(marks).get(1.5) as number, 6);
    const other = drawn(3, 0.1, 1.4).marks;
    const tenth = ((numbers(marks).get(2) as number) - (numbers(marks).get(1) as number)) / 10;
    expect(fillLine(marks) - fillLine(other)).toBeCloseTo(tenth, 6);
  });

  it('fills from the tip up to that line, and says the amount above it', () => {
    const { marks } = drawn(1, 0.01, 0.4);
    const liquid = marks.filter((mark) => mark.kind === 'area' && mark.fill === inks.gridFine);
    const right = Math.max(
      ...liquid.flatMap((mark) => (mark.kind === 'area' ? mark.points.map(([x]) => x) : [])),
    );
    expect(right).toBeCloseTo(fillLine(marks), 6);
    expect(marks).toContainEqual(expect.objectContaining({ text: '0.4 mL', weight: 'bold' }));
  });

  it('has room for its plunger and its words, however little is drawn up', () => {
    for (const { capacity, graduation } of SYRINGES) {
      for (const amount of [graduation, capacity]) {
        const { marks, width } = drawn(capacity, graduation, amount);
        for (const mark of marks) {
          if (mark.kind !== 'area' && mark.kind !== 'line') continue;
          for (const [x] of mark.points) {
            expect(x).toBeGreaterThanOrEqual(0);
            expect(x).toBeLessThanOrEqual(width);
          }
        }
      }
    }
  });
});

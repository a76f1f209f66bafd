import { describe, expect, it } from 'vitest';
import { ecgStrip } from '../../src/draw/ecg/strip.js';
import { toSvg } from '../../src/draw/svg.js';
import { sampleStrip } from './ecg/sample.js';

/** Reads every character as markup or text and returns the names of the elements; throws where the nesting breaks. */
function elementsOf(xml: string): string[] {
  const token =
    /<(\/?)([a-z]+)((?: [a-zA-Z-]+="[^"<&]*")*)(\/?)>|((?:[^<>&]|&(?:amp|lt|gt|quot);)+)/gy;
  const open: string[] = [];
  const all: string[] = [];
  while (token.lastIndex < xml.length) {
    const at = token.lastIndex;
    const match = token.exec(xml);
    if (!match) throw new Error(`not well-formed at ${xml.slice(at, at + 60)}`);
    const [, closing, name, , empty] = match;
    if (name === undefined) continue;
    if (closing) {
      if (open.pop() !== name) throw new Error(`${name} closes what is not open`);
      continue;
    }
    all.push(name);
    if (!empty) open.push(name);
  }
  if (open.length > 0) throw new Error(`${open.join()} left open`);
  return all;
}

describe('a drawing as SVG', () => {
  it('is well-formed and escapes what a record may hold', () => {
    const marks = [
      {
        kind: 'text',
        at: [1, 2],
        text: 'a < b & "c" > d',
        size: 3,
        weight: 'bold',
        align: 'end',
        colour: '#000000',
      },
    ] as const;
    const svg = toSvg({ width: 10, height: 5, marks }, { title: '1 < 2', description: 'Q & A' });
    expect(elementsOf(svg)).toEqual(['svg', 'title', 'desc', 'text']);
    expect(svg).toContain('<title>1 &lt; 2</title>');
    expect(svg).toContain('>a &lt; b &amp; &quot;c&quot; &gt; d</text>');
  });

  it('states its size in mm and uses one unit for 1 mm', () => {
    const drawing = { width: 100.5, height: 20, marks: [] };
    const svg = toSvg(drawing, { title: 't', description: 'd' });
    expect(svg).toMatch(/width="100.5mm" height="20mm" viewBox="0 0 100.5 20" role="img"/);
  });

  it('rounds to a micrometre and refuses what is no length', () => {
    const circle = (radius: number) => ({
      width: 1,
      height: 1,
      marks: [{ kind: 'circle', centre: [1 / 3, -0.00001], radius, fill: '#000000' } as const],
    });
    const words = { title: 't', description: 'd' };
    expect(toSvg(circle(2 / 3), words)).toContain('cx="0.333" cy="0" r="0.667"');
    expect(() => toSvg(circle(Number.NaN), words)).toThrow('NaN');
  });

  it('keeps ten seconds of ECG at 500 Hz under 80 kB', () => {
    const svg = toSvg(ecgStrip(sampleStrip()), { title: 'ECG', description: 'ten seconds' });
    expect(elementsOf(svg).filter((name) => name === 'svg')).toHaveLength(1);
    expect(svg.length).toBeLessThan(80_000);
  });
});

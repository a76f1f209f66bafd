import fc from 'fast-check';
import { expect, it } from 'vitest';
import { anchorOf, anchors, headingAnchors } from '../../../src/publish/html/anchors.js';

it('makes an address of the words of a heading', () => {
  expect(anchorOf('¿Qué mostró el monitor?')).toBe('que-mostro-el-monitor');
  expect(anchorOf('The screen says 148. Why?')).toBe('the-screen-says-148-why');
  expect(anchorOf('…')).toBe('part');
});

it('never gives one id twice, nor one that the page has already', () => {
  const anchor = anchors();
  expect(['Content', 'Why?', 'Why'].map(anchor)).toEqual(['content-2', 'why', 'why-2']);
  fc.assert(
    fc.property(fc.array(fc.string({ unit: 'grapheme' })), (headings) => {
      const ids = headings.map(anchors());
      expect(new Set(ids).size).toBe(ids.length);
      for (const id of ids) expect(id).toMatch(/^\S+$/);
    }),
  );
});

it('counts headings within a page or beside one another in the order in which they stand', () => {
  const heading = (text: string) => ({ kind: 'heading', level: 2, text }) as const;
  const ids = headingAnchors([
    { kind: 'beside', left: [heading('A')], right: [heading('A')] },
    { kind: 'page', blocks: [heading('A')] },
  ]);
  expect([...ids.values()]).toEqual(['a', 'a-2', 'a-3']);
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { sheetOf } from '../words/owner/sheet-of.js';
import { type Change, caseWith, problemsOf } from './sample.js';

const home = 'home.as needed[0]';

/** The sample with a medicine as needed. */
const NEEDED: Change = [
  '  collar: 12 days\n',
  `  as needed:
    - drug: gabapentin
      for: pain and swelling
      if: she cries or will not settle
      strength: 100 mg/capsule
      give: 1 capsule
      route: by mouth
      food: either
      at least apart: 8 h
      up to: { a day: 2, in all: 4 }
      until: 2026-03-12
  collar: 12 days\n`,
];
const needed = (from: string, to: string) =>
  caseWith([NEEDED[0], NEEDED[1].replace(from, () => to)]);

describe('a medicine as needed in the record', () => {
  it('is read with its limits; each most may stand alone', () => {
    expect(caseWith(NEEDED)).toMatchObject({
      ok: true,
      value: {
        value: {
          home: {
            'as needed': [
              {
                if: 'she cries or will not settle',
                'do not cut': 'no',
                'at least apart': { value: 8, unit: 'h' },
                'up to': { 'a day': 2, 'in all': 4 },
                until: '2026-03-12',
              },
            ],
          },
        },
      },
    });
    for (const most of ['{ a day: 2 }', '{ in all: 1 }']) {
      expect(needed('{ a day: 2, in all: 4 }', most).ok).toBe(true);
    }
  });

  it.each([
    ['if', '      if: she cries or will not settle\n'],
    ['at least apart', '      at least apart: 8 h\n'],
    ['up to', '      up to: { a day: 2, in all: 4 }\n'],
    ['until', '      until: 2026-03-12\n'],
  ])('is refused without "%s", as nothing else would keep it safe', (key, line) => {
    expect(problemsOf(needed(line, ''))).toMatchObject([
      { kind: 'a missing key', field: `${home}.${key}` },
    ]);
  });

  it('is refused where no most is told', () => {
    expect(problemsOf(needed('{ a day: 2, in all: 4 }', '{}'))).toMatchObject([
      { kind: 'a medicine as needed without a most', field: `${home}.up to` },
    ]);
  });

  it.each([
    ['at least apart: 8 h', 'at least apart: 0 h', 'at least apart'],
    ['at least apart: 8 h', 'at least apart: 8', 'at least apart'],
    ['a day: 2', 'a day: 0', 'up to.a day'],
    ['in all: 4', 'in all: 4.5', 'up to.in all'],
    ['until: 2026-03-12', 'until: 2026-02-30', 'until'],
    ['route: by mouth', 'route: in the eye', 'route'],
    ['give: 1 capsule', 'give: 1 tablet', 'give'],
  ])('is refused with %s as "%s"', (from, to, field) => {
    expect(problemsOf(needed(from, to))).toMatchObject([{ field: `${home}.${field}` }]);
  });

  it('is shown to authors as it can be read', () => {
    const page = readFileSync(new URL('../../docs/authors.md', import.meta.url), 'utf8');
    const [, shown = ''] = /^```yaml\nhome:\n( {2}as needed:\n[\s\S]*?)^```/m.exec(page) ?? [];
    expect(caseWith([NEEDED[0], `${shown}${NEEDED[0]}`]).ok).toBe(true);
    const text = sheetOf('en', [], [NEEDED[0], `${shown}${NEEDED[0]}`]);
    const said = [
      ...page.matchAll(/^> (Give it only if .*|Not before .*|Wait .*|Give no .*|Do not .*)$/gm),
    ];
    expect(said).toHaveLength(5);
    for (const [, line = ''] of said) expect(text).toContain(line.trim());
  });

  it('has no hours of its own', () => {
    expect(problemsOf(needed('      until', '      every: 8 h\n      until'))).toMatchObject([
      { kind: 'an unknown key' },
    ]);
  });
});

import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { placesMeant } from '../../src/care/body-place.js';

it.each([
  ['knee ligament repair', 'right elbow', ['knee']],
  ['knee ligament repair', 'codo derecho', ['knee']],
  ['eye removal', 'left ear', ['eye']],
  ['tooth removal', 'left knee', ['mouth']],
  ['spay', 'left shoulder', ['belly']],
])('a %s is not done at the site "%s"', (procedure, site, meant) => {
  expect(placesMeant(procedure, site)).toEqual(meant);
});

it.each([
  ['knee ligament repair', 'left stifle'],
  ['knee ligament repair', 'rodilla izquierda'],
  ['knee ligament repair', 'left hind leg'],
  ['knee ligament repair', 'left knee, bone chip from the hip'],
  ['tooth removal', 'upper jaw, below the left eye'],
  ['leg removal', 'right front leg, at the shoulder'],
  ['skin lump removal', 'left elbow'],
  ['kidney removal', 'behind the last rib'],
  ["the clinic's own operation", 'right elbow'],
])('a %s may be done at the site "%s"', (procedure, site) => {
  expect(placesMeant(procedure, site)).toBeNull();
});

it('knows places of no other procedures than those of the content', () => {
  const known = Object.keys(
    parse(readFileSync(new URL('../../content/en/procedures.yaml', import.meta.url), 'utf8')),
  );
  const source = readFileSync(new URL('../../src/care/body-place.ts', import.meta.url), 'utf8');
  const named = [...source.matchAll(/^ {2}\['([^']+)', /gm)].map(([, procedure]) => procedure);
  expect(named.length).toBeGreaterThan(10);
  expect(known).toEqual(expect.arrayContaining(named));
});

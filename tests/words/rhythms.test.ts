import { expect, it } from 'vitest';
import { disk } from '../../src/publish/disk.js';
import { load } from '../../src/publish/load.js';
import { RULES, WITHIN } from '../../src/signal/rhythm/handbook.js';
import { DEMO } from '../publish/clinic.js';

const demo = load(
  DEMO,
  disk(() => {}),
);
if (!demo.ok) throw new Error('The demonstration cases cannot be read.');

it.each(['en', 'es'])('each rhythm has its words for both readers, %s', (tag) => {
  const language = demo.value.content.languages.get(tag);
  for (const name of [...RULES, ...WITHIN].flatMap(({ names }) => names)) {
    for (const key of ['owner', 'learner.name', 'learner.text']) {
      expect(language?.rhythms.text(`${name}.${key}`).length).toBeGreaterThan(3);
    }
  }
});

it('names the rhythm of each demonstration strip, or withholds it where no range is at hand', () => {
  const found = Object.fromEntries(
    demo.value.cases.map(({ name, facts }) => [
      name,
      facts.strips[0]?.analysis.rhythms.map((rhythm) => rhythm.name),
    ]),
  );
  expect(found).toEqual({
    bramble: ['sinus rhythm'],
    clover: ['cannot be told'],
    juniper: ['breath-linked sinus arrhythmia'],
    pumpernickel: ['sinus rhythm'],
    saffron: ['sinus rhythm'],
    tucker: ['sinus rhythm'],
  });
  const tucker = demo.value.cases.find(({ name }) => name === 'tucker')?.facts.strips[0]?.analysis;
  // The planned early beats of the strip, tests/synth/demo-waveforms.ts.
  expect(
    tucker?.beats.flatMap(({ kind }, index) => (kind === 'ventricular premature' ? [index] : [])),
  ).toEqual([9, 21, 33, 47, 60, 72, 87]);
});

it('places no T of a demonstration strip before the end of its QRS', () => {
  for (const { facts } of demo.value.cases) {
    for (const { p, qrs, t } of facts.strips.flatMap(({ analysis }) => analysis.beats)) {
      if (qrs && t) expect(t.peak).toBeGreaterThan(qrs.end);
      if (qrs && p) expect(p.peak).toBeLessThan(qrs.onset);
    }
  }
});

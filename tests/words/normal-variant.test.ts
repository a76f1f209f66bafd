import { describe, expect, it } from 'vitest';
import type { HomeCase } from '../../src/facts/case-facts.js';
import { disk } from '../../src/publish/disk.js';
import { load } from '../../src/publish/load.js';
import type { NormalVariant } from '../../src/signal/breath/normal-variant.js';
import { ownerSheet } from '../../src/words/owner/owner-sheet.js';
import { DEMO } from '../publish/clinic.js';

const demo = load(
  DEMO,
  disk(() => {}),
);
if (!demo.ok) throw new Error('The demonstration cases cannot be read.');
const juniper = demo.value.cases.find(({ name }) => name === 'juniper')?.facts as HomeCase;

function told(variant: NormalVariant | null, tag: string): string {
  const language = demo.ok ? demo.value.content.languages.get(tag) : undefined;
  if (!language) throw new Error(`There is no language ${tag}.`);
  const strips = juniper.strips.map((strip) => ({
    ...strip,
    analysis: { ...strip.analysis, variant },
  }));
  return JSON.stringify(ownerSheet({ ...juniper, strips }, language, []).blocks);
}

describe.each([
  ['en', 'That is normal.', 'Ask your vet what this means.'],
  ['es', 'Eso es normal.', 'Pregunte a su veterinario qué significa.'],
])('a heart that goes with the breath, %s', (tag, normal, ask) => {
  it('is called normal where every proof is there', () => {
    expect(juniper.strips[0]?.analysis.variant).toEqual({ isNormalVariant: true, missing: [] });
    expect(told({ isNormalVariant: true, missing: [] }, tag)).toContain(normal);
  });

  it.each([[null], [{ isNormalVariant: false, missing: ['a narrow QRS'] } as const]])(
    'is a question to the veterinarian otherwise: %o',
    (variant) => {
      expect(told(variant, tag)).not.toContain(normal);
      expect(told(variant, tag)).toContain(ask);
    },
  );
});

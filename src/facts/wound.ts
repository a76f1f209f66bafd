import { Temporal } from 'temporal-polyfill';
import { openDays } from '../care/open-days.js';
import { outlookOf, type SkinStitches, skinStitches } from '../care/wound.js';
import type { CaseText } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import type { Located } from '../record/yaml-file.js';
import type { RemovalVisit, WoundFacts } from './case-facts.js';
import { computed, type Fact, recorded } from './fact.js';

export function woundFacts({ value, where }: Located<CaseText>, clinic: Clinic): WoundFacts {
  const { closure } = value;
  const gap = closure['edge gap'];
  const behaviours = outlookOf(closure.layers);
  const skin = skinStitches({
    tension: closure.tension,
    slowerBecause: closure['slower because'],
    layers: closure.layers,
  });
  return {
    healing: recorded(closure.healing, where('closure', 'healing')),
    edgeGap: computed(
      gap.unit === 'cm' ? gap.value * 10 : gap.value,
      gap.unit === 'cm' ? `${gap.written} in millimetres` : 'recorded',
      where('closure', 'edge gap'),
    ),
    tension: recorded(closure.tension, where('closure', 'tension')),
    slowerBecause: closure['slower because'],
    layers: closure.layers.map((layer, index) => ({
      layer: layer.layer,
      material: layer.material,
      size: layer.size ?? null,
      pattern: layer.pattern,
      behaviour: (behaviours[index] as (typeof behaviours)[number]).behaviour,
    })),
    skin: computed(skin, 'from the material of the skin layer', where('closure', 'layers')),
    removal: skin.kind === 'remove' ? removalVisit(skin, value.surgery.date, clinic) : null,
  };
}

function removalVisit(
  { from, to }: Extract<SkinStitches, { kind: 'remove' }>,
  surgery: string,
  clinic: Clinic,
): Fact<RemovalVisit> {
  const day = Temporal.PlainDate.from(surgery);
  const [proposed = null, ...others] = openDays(clinic, surgery, from, to);
  return computed(
    {
      from: day.add({ days: from }).toString(),
      to: day.add({ days: to }).toString(),
      proposed,
      others,
    },
    `first open day from day ${from} to day ${to} after surgery (common practice)`,
    'case.yaml surgery.date',
    'clinic.yaml hours',
  );
}

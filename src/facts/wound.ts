import { Temporal } from 'temporal-polyfill';
import { makesLastingOpening } from '../care/lasting-opening.js';
import { nearestOpenDay, openingHours } from '../care/open-days.js';
import { REACH_AFTER, type RemovalVisit, removalVisit } from '../care/removal.js';
import {
  healingEstimate,
  outlookOf,
  type SkinStitches,
  skinStitches,
  type Wound,
} from '../care/wound.js';
import { woundPlace } from '../care/wound-place.js';
import type { HomeText } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import type { ProblemKind } from '../record/problem-kind.js';
import { USP_SIZES } from '../record/suture-size.js';
import type { Located } from '../record/yaml-file.js';
import { asked, partOf, type Question } from './asked.js';
import type { DrainFacts, WoundFacts } from './case-facts.js';
import { computed, type Fact, notKnown, recorded } from './fact.js';
import { daysOf } from './timeline.js';

interface WoundOutcome {
  readonly wound: WoundFacts;
  readonly warnings: readonly Question[];
}

/** How the wound was closed, what holds it until when, and the days on which something comes out of it. */
export function woundFacts(record: Located<HomeText>, clinic: Clinic): Outcome<WoundOutcome> {
  const { value, where } = record;
  const { closure } = value;
  const field = (name: string) => where('closure', name);
  const gap = closure['edge gap'];
  const wound: Wound = {
    healing: closure.healing,
    edgeGap: gap.unit === 'cm' ? gap.value * 10 : gap.value,
    tension: closure.tension,
    slowerBecause: closure['slower because'],
    layers: closure.layers,
    bare: closure.healing === 'left open' && closure.bandage === 'no',
    inMouth: woundPlace(value.surgery.procedure, closure.place) === 'mouth',
  };
  const outlook = outlookOf(closure.layers);
  const skin = skinStitches(wound);
  const removal = removalFact(record, clinic, skin);
  const { problems, warnings } = removalTrouble(record, clinic, removal);
  const stops = [...problems, ...misplaced(record, wound)];
  if (stops.length > 0) return bad(...stops);
  return good({
    warnings: [...warnings, ...unheld(record, wound, skin)],
    wound: {
      healing: recorded(closure.healing, field('healing')),
      ...(wound.inMouth && {
        mouth: recorded(
          true as const,
          closure.place ? field('place') : where('surgery', 'procedure'),
        ),
      }),
      ...(makesLastingOpening(value.surgery.procedure) &&
        !wound.inMouth &&
        closure.healing !== 'left open' && {
          opening: recorded(true as const, where('surgery', 'procedure')),
        }),
      ...(wound.bare && { bare: recorded(true as const, field('bandage')) }),
      edgeGap: computed(
        wound.edgeGap,
        gap.unit === 'cm' ? `${gap.written} in millimetres` : 'recorded',
        field('edge gap'),
      ),
      tension: recorded(closure.tension, field('tension')),
      slowerBecause: closure['slower because'],
      layers: closure.layers.map(({ layer, material, size, pattern }, index) => {
        const { behaviour, hold } = outlook[index] as (typeof outlook)[number];
        return {
          layer,
          material,
          size: size ?? null,
          diameter: size ? USP_SIZES[size].diameter : null,
          pattern,
          behaviour,
          hold,
        };
      }),
      estimate: computed(
        healingEstimate(wound),
        'from the distance of the edges, the tension and what slows healing; the length plays no part',
        field('healing'),
        field('edge gap'),
        field('tension'),
        field('slower because'),
        ...(wound.bare ? [field('bandage')] : []),
      ),
      skin: computed(skin, 'from the material of the skin layer', field('layers')),
      removal,
      drain: drainFacts(record, clinic),
    },
  });
}

/** Layers that cannot be where the wound is. */
function misplaced({ at }: Located<HomeText>, { layers, inMouth }: Wound): Problem[] {
  return layers.flatMap(({ layer }, index): Problem[] => {
    const isGum = layer === 'gum';
    if (inMouth ? layer !== 'skin' && layer !== 'within the skin' : !isGum) return [];
    return [
      {
        kind: 'a layer that contradicts itself',
        ...at('closure', 'layers', index, 'layer'),
        found: inMouth
          ? `the layer "${layer}" of a wound in the mouth`
          : 'gum, of a wound in the skin',
        expected: inMouth ? 'the layer "gum"' : 'layers of a wound in the skin',
        mend: inMouth
          ? 'Write "layer: gum", or "place: skin" under closure.'
          : 'Mend the layer, or write "place: mouth" under closure.',
      },
    ];
  });
}

/** Asks about joined edges where no layer says what holds the skin: the sheet would not tell of stitches to take out. */
function unheld({ value, at }: Located<HomeText>, wound: Wound, skin: SkinStitches): Question[] {
  if (wound.healing === 'left open' || skin.kind !== 'none') return [];
  const outermost = wound.inMouth ? 'gum' : 'skin';
  return [
    {
      ...asked(
        'skin that nothing holds',
        partOf.closure(value),
        wound.inMouth ? 'Add a layer "gum"' : 'Add a layer "skin" or "within the skin"',
      ),
      ...at('closure', 'layers'),
      found: `joined edges, and no layer at the ${outermost}`,
      expected: `what holds the ${outermost}, as the owner is told whether something has to come out`,
    },
  ];
}

function removalFact(
  { value, where }: Located<HomeText>,
  clinic: Clinic,
  skin: SkinStitches,
): Fact<RemovalVisit> | null {
  if (skin.kind !== 'remove') return null;
  const set = value.closure['remove on'] ?? null;
  const later = skin.later.length > 0 ? `; later because of ${skin.later.join(', ')}` : '';
  const { collar } = value.home;
  const day = Temporal.PlainDate.from(value.surgery.date);
  const guardedUntil = collar ? day.add({ days: daysOf(collar) }).toString() : null;
  return computed(
    removalVisit(clinic, value.surgery.date, skin, set, guardedUntil),
    `${set ? 'set by the veterinarian; usual' : 'first open day'} from day ${skin.from} to day ${skin.to} after surgery (common practice${later})${collar ? ', no later than the collar' : ''}`,
    ...(set ? [where('closure', 'remove on')] : []),
    where('surgery', 'date'),
    ...(collar ? [where('home', 'collar')] : []),
    'clinic.yaml hours',
  );
}

interface Trouble {
  readonly problems: readonly Problem[];
  readonly warnings: readonly Question[];
}

function removalTrouble(
  { value, at }: Located<HomeText>,
  clinic: Clinic,
  removal: Fact<RemovalVisit> | null,
): Trouble {
  const { closure } = value;
  const set = closure['remove on'];
  const problem = (
    kind: ProblemKind,
    name: string,
    found: string,
    expected: string,
    mend: string,
  ): Problem => ({
    kind,
    ...at('closure', name),
    found,
    expected,
    mend,
  });
  const stop = (...problems: Problem[]): Trouble => ({ problems, warnings: [] });
  if (!removal) {
    if (set === undefined) return stop();
    return stop(
      problem(
        'a day to take out nothing',
        'remove on',
        set,
        'no such day, as nothing has to come out',
        'Remove it.',
      ),
    );
  }
  const { from, to, proposed, next } = removal.value;
  if (proposed === null && next === null) {
    return stop(
      problem(
        'no open day to take stitches out',
        'layers',
        `stitches to take out, and a clinic that is closed from ${from} to ${REACH_AFTER} days after ${to}`,
        'an open day on which they can come out',
        'Mend "hours" and "closed on" in clinic.yaml, or write the day as "remove on".',
      ),
    );
  }
  const doubt = (
    kind: ProblemKind,
    name: string,
    found: string,
    expected: string,
    mend?: string,
  ): Question => ({
    ...asked(kind, partOf.closure(value), mend),
    ...at('closure', name),
    found,
    expected,
  });
  const warnings: Question[] = [];
  if (proposed === null) {
    warnings.push(
      doubt(
        'a closed clinic when stitches come out',
        'layers',
        `a clinic that is closed from ${from} to ${to}, the days on which stitches come out`,
        'an open day among them',
        'Decide on a day and write it as "remove on"',
      ),
    );
  }
  if (set !== undefined && (set < from || set > to)) {
    warnings.push(
      doubt(
        'stitches out on an unusual day',
        'remove on',
        set,
        `a day from ${from} to ${to} (common practice)`,
      ),
    );
  }
  if (set !== undefined && !openingHours(clinic, Temporal.PlainDate.from(set))) {
    warnings.push(
      doubt(
        'stitches out on a closed day',
        'remove on',
        `${set}, when the clinic is closed`,
        'a day on which it is open',
      ),
    );
  }
  return { problems: [], warnings };
}

function drainFacts({ value, where }: Located<HomeText>, clinic: Clinic): DrainFacts | null {
  const { drain } = value.closure;
  if (!drain) return null;
  const after = daysOf(drain['out after']);
  const place = where('closure', 'drain', 'out after');
  const on = nearestOpenDay(clinic, value.surgery.date, after);
  return {
    what: drain.what,
    after: recorded(after, place),
    on: on
      ? computed(on, `open day nearest to day ${after} after surgery`, place, 'clinic.yaml hours')
      : notKnown(`The clinic is closed around day ${after}.`),
  };
}

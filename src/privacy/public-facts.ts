import type {
  Age,
  AnesthesiaFacts,
  CaseEvent,
  CaseFacts,
  ChannelFacts,
  Published,
  StripFacts,
  VitalsFacts,
  WoundFacts,
} from '../facts/case-facts.js';
import type { Stated } from '../facts/fact.js';
import type { Drain, Species } from '../record/vocabulary.js';
import { roundTo } from '../units/round.js';

/**
 * The part of a case that public documents may know. It has no field for a name, a place, a date or a file, so a public
 * page cannot say one: the wall stands in the types, and the places that a fact rests on stay behind it. Free text passes through and is searched for identifiers before
 * anything is published.
 */
export interface PublicFacts {
  readonly published: Published;
  readonly patient: {
    readonly species: Species;
    readonly sex: 'female' | 'male';
    readonly neutered: boolean;
    readonly ageBand: AgeBand;
    /** kg, rounded; doses are given per kilogram, so they stay true. */
    readonly roundedWeight: number;
  };
  readonly procedure: string;
  readonly surgeryMinutes: number | null;
  readonly anesthesia: {
    readonly minutes: number;
    readonly breathing: 'spontaneous' | 'ventilator';
    readonly ventilatorRate: number | null;
    readonly maintenance: string | null;
    readonly drugs: readonly PublicDrug[];
    readonly events: readonly CaseEvent[];
  };
  readonly vitals: { readonly channels: readonly ChannelFacts[] } & Pick<
    VitalsFacts,
    'lowPressure'
  >;
  readonly strips: readonly Omit<StripFacts, 'file'>[];
  readonly wound: Pick<
    WoundFacts,
    'healing' | 'edgeGap' | 'tension' | 'slowerBecause' | 'layers' | 'estimate' | 'skin'
  > & {
    /** Without the day on which it comes out. */
    readonly drain: { readonly what: Drain; readonly after: number } | null;
  };
}

export interface PublicDrug {
  readonly drug: string;
  readonly route: string;
  readonly minute: number;
  /** mg per kg; null where only a volume is known. */
  readonly perKilogram: number | null;
}

const AGE_BANDS = ['under 1', '1 to 3', '4 to 7', '8 to 11', '12 or more'] as const;
export type AgeBand = (typeof AGE_BANDS)[number];

/** What may be told in public; null where the owner has not consented to any public document. */
export function publicFacts(facts: CaseFacts): PublicFacts | null {
  const { consent, published, patient, surgery, anesthesia, vitals, wound } = facts;
  if (!published || !(consent.teaching.allows || consent.record.allows)) return null;
  return {
    published,
    patient: {
      species: patient.species.value,
      sex: patient.sex.value,
      neutered: patient.neutered.value,
      ageBand: ageBand(patient.age.value),
      roundedWeight: roundedWeight(patient.weight.value),
    },
    procedure: surgery.procedure.value,
    surgeryMinutes: surgery.duration.value,
    anesthesia: {
      minutes: anesthesia.duration.value,
      breathing: anesthesia.breathing.value,
      ventilatorRate: anesthesia.ventilatorRate.value,
      maintenance: anesthesia.maintenance.value,
      drugs: publicDrugs(anesthesia),
      events: anesthesia.events,
    },
    vitals: {
      channels: vitals.channels.map((channel) => ({
        ...channel,
        spread: unsourced(channel.spread),
      })),
      lowPressure: unsourced(vitals.lowPressure),
    },
    strips: facts.strips.map(({ lead, begins, analysis, shown }) => ({
      lead,
      begins: unsourced(begins),
      analysis,
      shown: unsourced(shown),
    })),
    wound: {
      healing: unsourced(wound.healing),
      edgeGap: unsourced(wound.edgeGap),
      tension: unsourced(wound.tension),
      slowerBecause: wound.slowerBecause,
      layers: wound.layers,
      estimate: unsourced(wound.estimate),
      skin: unsourced(wound.skin),
      drain: wound.drain && { what: wound.drain.what, after: wound.drain.after.value },
    },
  };
}

/** A fact without the places that it rests on: they name files and folders, and a folder may bear a patient's name. */
function unsourced<S extends Stated<unknown>>(stated: S): S {
  return 'from' in stated ? { ...stated, from: [] } : stated;
}

function publicDrugs({ drugs }: AnesthesiaFacts): PublicDrug[] {
  return drugs.map(({ drug, route, minute, perKilogram }) => ({
    drug,
    route,
    minute,
    perKilogram: perKilogram.value,
  }));
}

/** How many of a unit make a year, by the calendar: not a clinical number. */
const PER_YEAR: Readonly<Record<Age['unit'], number>> = { years: 1, months: 12, weeks: 365.25 / 7 };

/** Age in a band of several years, after the advice of 45 CFR 164.514(b)(2) to generalise ages that stand out. */
export function ageBand({ count, unit }: Age): AgeBand {
  const whole = Math.floor(count / PER_YEAR[unit]);
  if (whole < 1) return 'under 1';
  if (whole <= 3) return '1 to 3';
  if (whole <= 7) return '4 to 7';
  return whole <= 11 ? '8 to 11' : '12 or more';
}

/** Body weight to the nearest kilogram from 10 kg on, to half a kilogram below, to 0.1 kg under 1 kg. */
export function roundedWeight(kilograms: number): number {
  if (kilograms >= 10) return Math.round(kilograms);
  return kilograms >= 1 ? Math.round(kilograms * 2) / 2 : roundTo(kilograms, 1);
}

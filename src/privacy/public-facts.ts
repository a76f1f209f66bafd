import {
  type AnesthesiaFacts,
  type CaseEvent,
  type CaseFacts,
  type ChannelFacts,
  goesHome,
  type Published,
  type StripFacts,
  type VitalsFacts,
  type WoundFacts,
} from '../facts/case-facts.js';
import { type DosePerKilogram, dosePerKilogram } from '../facts/dose-per-kilogram.js';
import { type ExerciseFacts, exerciseFacts } from '../facts/exercises.js';
import type { Stated } from '../facts/fact.js';
import { type Story, storyOf } from '../facts/story.js';
import type { Drain, Species } from '../record/vocabulary.js';
import { roundTo, toDigits } from '../units/round.js';
import { AFTER_DEATH, BY_VENTILATOR } from '../vitals/channel.js';
import { ageBand } from './age-band.js';
import type { Told, Traits } from './small-groups.js';
import { shifted, type Veil } from './veil.js';

/**
 * The part of a case that public documents may know. It has no field for a name, a place, a date or a file, so a public
 * page cannot say one: the wall stands in the types, and the places that a fact rests on stay behind it. Free text passes through and is searched for identifiers before
 * anything is published.
 */
export interface PublicFacts {
  /** What the case is called where its number may not stand. */
  readonly pseudonym: string;
  readonly published: Published;
  /** A region no smaller than a state; null where none is told. */
  readonly region: string | null;
  /** Local times, all moved by the same secret number of whole weeks: intervals, weekdays and times of day are true. */
  readonly shifted: { readonly began: string } & (
    | {
        readonly discharged: string;
        /** First open day for stitches or staples to come out; null where there is none. */
        readonly stitchesOut: string | null;
      }
    | { readonly died: string }
  );
  /** Null where the patient went home. */
  readonly death: PublicDeath | null;
  readonly patient: {
    readonly species: Species;
    /** Null where too few of the collection share it. */
    readonly breed: string | null;
    readonly sex: 'female' | 'male' | null;
    readonly neutered: boolean | null;
    readonly ageBand: Told['ageBand'];
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
    'lowPressure' | 'systolicAlone' | 'lowOxygen'
  >;
  readonly strips: readonly Omit<StripFacts, 'file' | 'written'>[];
  /** Null where the patient died: nothing has to hold. */
  readonly wound: PublicWound | null;
  /** What happened on one time line, and what the vital signs did about it. */
  readonly story: Story;
  /** What the case can be asked, with all that an answer is judged by. */
  readonly exercises: readonly ExerciseFacts[];
}

/** How a wound was closed, without the day on which a drain comes out. */
export type PublicWound = Pick<
  WoundFacts,
  'healing' | 'edgeGap' | 'tension' | 'slowerBecause' | 'layers' | 'estimate' | 'skin'
> & { readonly drain: { readonly what: Drain; readonly after: number } | null };

/** A death as the public is told it. */
interface PublicDeath {
  /** Since the start of anesthesia. */
  readonly minute: number;
  /** Minutes after the end of anesthesia; 0 where the patient died under it. */
  readonly afterwards: number;
  /** The author's own words; null where the record has none. */
  readonly said: string | null;
}

/** A drug as the public is told it. */
interface PublicDrug {
  readonly drug: string;
  readonly route: string;
  readonly minute: number;
  /** In two digits, lest a dose that is a whole number give the exact weight back. */
  readonly perKilogram: DosePerKilogram;
  readonly isFluid: boolean;
}

/** By what somebody could look for the patient of a case. */
export const traitsOf = ({ patient, surgery }: CaseFacts, region: string | null): Traits => ({
  species: patient.species.value,
  breed: patient.breed.value,
  ageBand: ageBand(patient.age.value),
  sex: `${patient.sex.value}${patient.neutered.value ? ' neutered' : ''}`,
  procedure: surgery.procedure.value,
  region,
});

/** What may be told in public; null where the owner has not consented to any public document. */
export function publicFacts(facts: CaseFacts, veil: Veil): PublicFacts | null {
  const { consent, published, patient, surgery, anesthesia, vitals } = facts;
  if (!published || !(consent.teaching.allows || consent.record.allows)) return null;
  const healing = goesHome(facts) ? facts.wound.healing.value : null;
  const moved = (date: string) => shifted(date, veil.weeks);
  const sayOrNull = (text: string | null) => (text === null ? null : veil.say(text));
  const movedOrNull = (date?: string | null) => (date ? moved(date) : null);
  return {
    pseudonym: veil.pseudonym,
    published: {
      title: veil.say(published.title),
      patient: veil.say(published.patient),
      address: veil.say(published.address),
    },
    region: veil.region,
    shifted: {
      began: moved(anesthesia.begin.value),
      ...(goesHome(facts)
        ? {
            discharged: moved(facts.surgery.discharge.value),
            stitchesOut: movedOrNull(facts.wound.removal?.value.proposed),
          }
        : { died: moved(facts.death.at.value) }),
    },
    death: goesHome(facts)
      ? null
      : {
          minute: facts.death.minute.value,
          afterwards: facts.death.afterwards.value,
          said: sayOrNull(facts.death.said.value),
        },
    patient: {
      species: patient.species.value,
      breed: veil.told.breed,
      sex: veil.told.sex ? patient.sex.value : null,
      neutered: veil.told.sex ? patient.neutered.value : null,
      ageBand: veil.told.ageBand,
      roundedWeight: roundedWeight(patient.weight.value),
    },
    procedure: surgery.procedure.value,
    surgeryMinutes: surgery.duration.value,
    anesthesia: {
      minutes: anesthesia.duration.value,
      breathing: anesthesia.breathing.value,
      ventilatorRate: anesthesia.ventilatorRate.value,
      maintenance: sayOrNull(anesthesia.maintenance.value),
      drugs: publicDrugs(anesthesia, veil.say),
      events: anesthesia.events.map((event) => ({
        ...event,
        note: sayOrNull(event.note),
      })),
    },
    vitals: {
      channels: vitals.channels.map((channel) => ({
        ...channel,
        apart: channel.apart.map((one) => ({
          ...one,
          why: OUR_REASONS.has(one.why) ? one.why : veil.say(one.why),
        })),
        spread: unsourced(channel.spread),
      })),
      lowPressure: unsourced(vitals.lowPressure),
      systolicAlone: vitals.systolicAlone && unsourced(vitals.systolicAlone),
      ...(vitals.lowOxygen && { lowOxygen: unsourced(vitals.lowOxygen) }),
    },
    strips: facts.strips.map(({ lead, begins, analysis, shown }) => ({
      lead,
      begins: unsourced(begins),
      analysis,
      shown: unsourced(shown),
    })),
    wound: goesHome(facts) ? publicWound(facts.wound) : null,
    story: storyOf(anesthesia.events, vitals, healing, facts.strips),
    exercises: exerciseFacts(facts),
  };
}

/** Why readings stand apart where the program and not an author says so. */
const OUR_REASONS: ReadonlySet<string> = new Set([BY_VENTILATOR, AFTER_DEATH]);

const publicWound = (wound: WoundFacts): PublicWound => ({
  healing: unsourced(wound.healing),
  edgeGap: unsourced(wound.edgeGap),
  tension: unsourced(wound.tension),
  slowerBecause: wound.slowerBecause,
  layers: wound.layers,
  estimate: unsourced(wound.estimate),
  skin: unsourced(wound.skin),
  drain: wound.drain && { what: wound.drain.what, after: wound.drain.after.value },
});

/** A fact without the places that it rests on: they name files and folders, and a folder may bear a patient's name. */
function unsourced<S extends Stated<unknown>>(stated: S): S {
  return 'from' in stated ? { ...stated, from: [] } : stated;
}

function publicDrugs({ drugs }: AnesthesiaFacts, say: Veil['say']): PublicDrug[] {
  return drugs.map((given) => {
    const { value, unit } = dosePerKilogram(given);
    return {
      drug: say(given.drug),
      route: given.route,
      minute: given.minute,
      perKilogram: { value: toDigits(value, 2), unit },
      isFluid: given.isFluid,
    };
  });
}

/** Body weight to the nearest kilogram from 10 kg on, to half a kilogram below, to 0.1 kg under 1 kg. */
export function roundedWeight(kilograms: number): number {
  if (kilograms >= 10) return Math.round(kilograms);
  return kilograms >= 1 ? Math.round(kilograms * 2) / 2 : roundTo(kilograms, 1);
}

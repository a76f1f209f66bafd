import type { ClockChange, Rhythm } from '../care/doses.js';
import type { MaterialBehaviour } from '../care/materials.js';
import type { Measure } from '../care/measure.js';
import type { Opening } from '../care/open-days.js';
import type { CarePlan } from '../care/plan.js';
import type { RemovalVisit } from '../care/removal.js';
import type { SignTopic } from '../care/warning-topics.js';
import type { HealingEstimate, Hold, SkinStitches } from '../care/wound.js';
import type { ConsentKind } from '../record/case-schema.js';
import type { Hours } from '../record/clinic-schema.js';
import type { Span } from '../record/formulary-schema.js';
import type { Warning } from '../record/problem.js';
import type { Quantity } from '../record/quantity.js';
import type {
  ClinicRoute,
  Drain,
  EventKind,
  FirstMeal,
  Food,
  Layer,
  Material,
  Species,
} from '../record/vocabulary.js';
import type { StripAnalysis } from '../signal/strip-analysis.js';
import type { Kilogram } from '../units/brands.js';
import type { ChannelReadings, Spread } from '../vitals/channel.js';
import type { ClockSkew } from '../vitals/clock-skew.js';
import type { LowOxygen } from '../vitals/oxygen.js';
import type { Burden, LowEpisode } from '../vitals/pressure.js';
import type { WhyNoClocks } from './clocks.js';
import type { InCourse } from './courses.js';
import type { Fact, Stated } from './fact.js';

/**
 * All that any document may say of one case. Frozen; the private documents draw from it, the public ones from the part
 * that `privacy/` lets through. Times of day are local to the clinic; minutes count from the start of anesthesia.
 *
 * A case ends in one of two ways, and what is made for the owner takes a `HomeCase` alone: no sheet, calendar or day to
 * keep can be made from the facts of a patient that died.
 */
export type CaseFacts = HomeCase | DeathCase;

/** What is told of every case, however it ended. */
export interface AnyCase {
  /** Who handed out the record; never public. */
  readonly identity: Identity;
  readonly patient: PatientFacts;
  readonly surgery: SurgeryFacts;
  readonly anesthesia: AnesthesiaFacts;
  readonly vitals: VitalsFacts;
  readonly strips: readonly StripFacts[];
  /** How far the vitals are ahead of the strips, by displayed and counted rates. */
  readonly clocks: Stated<ClockSkew, WhyNoClocks>;
  /** What a veterinarian is asked about, with the answers that the record gives. */
  readonly warnings: readonly Warning[];
  readonly consent: Readonly<Record<ConsentKind, Consent>>;
  /** How the case appears in public; null where nothing is published. */
  readonly published: Published | null;
}

/** The case of a patient that goes home. */
export interface HomeCase extends AnyCase {
  readonly surgery: SurgeryFacts & Leaving;
  readonly wound: WoundFacts;
  readonly home: HomeFacts;
  readonly plan: PlanFacts;
}

/** The case of a patient that died under the anesthesia or after it. */
export interface DeathCase extends AnyCase {
  readonly death: DeathFacts;
}

/** Whether the patient goes home, so that there is something to tell its owner to do. */
export const goesHome = (facts: CaseFacts): facts is HomeCase => 'home' in facts;

/** A death as the record tells it. */
export interface DeathFacts {
  /** Local date and time, `YYYY-MM-DDTHH:MM`. */
  readonly at: Fact<string>;
  /** Minutes since the start of anesthesia. */
  readonly minute: Fact<number>;
  /** Minutes after the end of anesthesia; 0 where the patient died under it. */
  readonly afterwards: Fact<number>;
  /** What the record says of it, word for word; no cause is inferred. */
  readonly said: Stated<string>;
}

/** What an owner says to one kind of publication. */
export interface Consent {
  /** Whether it was given and not taken back. */
  readonly allows: boolean;
  readonly by: string | null;
  /** `YYYY-MM-DD` */
  readonly on: string | null;
  /** `YYYY-MM-DD`; from whatever day it is, the next build publishes nothing of it. */
  readonly withdrawn: string | null;
}

/** Who is concerned. Nothing of it enters the public. */
export interface Identity {
  readonly record: string;
  readonly patientName: string;
  readonly microchip: string | null;
  readonly owner: {
    readonly name: string;
    readonly phone: string | null;
    readonly email: string | null;
    readonly address: string | null;
    /** Tag of a folder under content/. */
    readonly language: string;
    /** Whether the sheet is printed in large type. */
    readonly largeType: boolean;
  };
  readonly surgeon: string;
  readonly anesthetist: string | null;
  /** Everybody else who took part. */
  readonly others: readonly string[];
  readonly clinic: {
    readonly name: string;
    readonly address: readonly string[];
    readonly phone: string;
    /** Whom to call when the clinic is closed; null where it never is. */
    readonly emergency: { readonly name: string; readonly phone: string } | null;
    readonly timeZone: string;
    /** When somebody answers there, by the weekday, and the days on which nobody does. */
    readonly opening: Opening;
    readonly paper: 'A4' | 'Letter';
    /** How the owner's sheet tells the hours. */
    readonly clock: Hours;
  };
}

/** The patient as an animal, without its name. */
export interface PatientFacts {
  readonly species: Fact<Species>;
  readonly breed: Fact<string>;
  readonly sex: Fact<'female' | 'male'>;
  readonly neutered: Fact<boolean>;
  /** Age on the day of surgery. */
  readonly age: Fact<Age>;
  readonly weight: Fact<Kilogram>;
}

/** An age as it was told: a number and its unit. */
export interface Age {
  readonly count: number;
  readonly unit: 'years' | 'months' | 'weeks';
}

/** The operation: day, times, site, length of the incision (mm). */
export interface SurgeryFacts {
  /** `YYYY-MM-DD` */
  readonly date: Fact<string>;
  readonly procedure: Fact<string>;
  readonly site: Stated<string>;
  /** Minutes from the first incision to the end of surgery. */
  readonly duration: Stated<number>;
  readonly incision: Stated<Quantity>;
}

/** How a patient goes home. */
export interface Leaving {
  /** Local date and time, `YYYY-MM-DDTHH:MM`. */
  readonly discharge: Fact<string>;
  readonly noteToOwner: Stated<string>;
}

/** The anesthesia: begin, minutes, drugs, events. */
export interface AnesthesiaFacts {
  /** Local date and time of the start, `YYYY-MM-DDTHH:MM`. */
  readonly begin: Fact<string>;
  /** Minutes from start to end. */
  readonly duration: Fact<number>;
  readonly breathing: Fact<'spontaneous' | 'ventilator'>;
  /** Breaths per minute that the ventilator gave. */
  readonly ventilatorRate: Stated<number>;
  readonly maintenance: Stated<string>;
  readonly drugs: readonly DrugGiven[];
  readonly events: readonly CaseEvent[];
}

/** A drug given in the clinic. */
export interface DrugGiven {
  readonly drug: string;
  readonly amount: Quantity;
  readonly route: ClinicRoute;
  readonly minute: number;
  /** mg per kg of body weight; not known where the amount is a volume. */
  readonly perKilogram: Stated<number>;
  /** mL per kg of body weight, where the amount is a volume; null where it is not. */
  readonly volumePerKilogram: Fact<number> | null;
  /** Whether it is a fluid that is given by volume, so that no strength is missing. */
  readonly isFluid: boolean;
  /** The mg per kg at one time of the clinic's formulary that the dose was checked against. */
  readonly checked: Stated<Span>;
}

/** An event of the anesthesia, at its minute from the start. */
export interface CaseEvent {
  readonly minute: number;
  readonly what: EventKind;
  readonly note: string | null;
}

/** What the monitor displayed, by channel. */
export interface VitalsFacts {
  readonly file: string;
  readonly channels: readonly ChannelFacts[];
  /** Mean pressure under the limit. */
  readonly lowPressure: Stated<
    {
      /** mmHg */
      readonly limit: number;
      readonly chosenBy: 'guideline' | 'clinic';
      readonly episodes: readonly LowEpisode[];
      /** How many mean pressures were read, and how many computed from the systolic and diastolic reading of their line. */
      readonly read: number;
      readonly computed: number;
      readonly burden: Burden;
    },
    WhyNoMean
  >;
  /** Where systolic pressure alone was measured: what can be said of it. Null where there is a mean, or no pressure at all. */
  readonly systolicAlone: Fact<SystolicAlone> | null;
  /** Where oxygen saturation was low for many minutes. */
  readonly lowOxygen?: Fact<readonly LowOxygen[]>;
}

/** Why mean pressure cannot be judged. */
export type WhyNoMean =
  | 'The record holds no blood pressure of the patient.'
  | 'The record holds no mean pressure, and none can be computed.'
  | 'The record holds only systolic pressure.';

/** Systolic pressure where there is no other, mmHg. */
export interface SystolicAlone {
  readonly limit: number;
  /** Whether the limit was published for the species of the patient. */
  readonly ofSpecies: boolean;
  readonly lowest: number;
  readonly highest: number;
  readonly count: number;
  readonly episodes: readonly LowEpisode[];
}

/** One channel: its readings on the patient, and those that were not the patient. */
export interface ChannelFacts extends ChannelReadings {
  readonly spread: Stated<Spread>;
}

/** Why nobody knows when a strip began; `strip.unknown` among the words for learners says it to readers. */
export type WhyNoBegin =
  | "The file's own clock places the strip outside the anesthesia, and the record does not say when it began."
  | 'Neither the file nor the record says when the strip began.';

/** Why no displayed rate can be held against the strip; said to readers in the same place. */
export type WhyNotShown =
  | WhyNoBegin
  | 'The beats on the strip could not be counted.'
  | 'The vitals hold no displayed heart rate of the patient.'
  | 'No heart rate was displayed within 2.5 minutes of the strip.'
  | 'The beats could not be counted for most of the minute around the displayed rates.';

/** One ECG strip and what its analysis says. */
export interface StripFacts {
  readonly file: string;
  /** By its name in the trade. */
  readonly lead: string;
  /** The lead as the record writes it: free text, for the clinic alone. */
  readonly written: string;
  /** Minute of the first sample; not known where neither the file nor the record states a time. */
  readonly begins: Stated<number, WhyNoBegin>;
  readonly analysis: StripAnalysis;
  /** The monitor's displayed rates during the strip, else the nearest to it, against the counted one. */
  readonly shown: Stated<ShownRate, WhyNotShown>;
}

/** The displayed heart rate beside the beats of a strip, beats/min. */
export interface ShownRate {
  /** Whether the readings were displayed while the strip ran; else they are the nearest one before it and after it. */
  readonly during: boolean;
  /** In order of time; readings displayed during the strip that say the same one after the other stand together. */
  readonly shown: readonly ShownStretch[];
  /** What every reading says by itself; `mixed` where they do not say the same. */
  readonly verdict: ShownVerdict;
  /** Whether the whole strip was counted for each of them; of a longer strip it was the minute around the reading. */
  readonly isWhole: boolean;
  /** Whether highest and lowest reading agree with each other as a reading must agree with the count. */
  readonly alike: boolean;
  /** Size of T over height of R on the strip, the evidence for a T that was counted; null where it was not measured. */
  readonly tToR: number | null;
}

/** Displayed rates that say the same of the count; one reading where `from` is `to`. Each is compared by itself. */
export interface ShownStretch {
  /** Minutes since the start of anesthesia. */
  readonly from: number;
  readonly to: number;
  /** beats/min */
  readonly lowest: number;
  readonly highest: number;
  /** Of the lowest and of the highest over the mean rate that was counted beside them. */
  readonly ratios: readonly [lowest: number, highest: number];
  readonly relation: ShownRelation;
}

/**
 * `short window`: it does not agree with the mean, but a count over a few seconds could have shown it. `unsteady`: the
 * heart did not keep one pace around it, or had no beats to count for part of the time, so no one count vouches for it.
 */
export type ShownRelation =
  | 'agrees'
  | 'about double'
  | 'about half'
  | 'short window'
  | 'unsteady'
  | 'differs';

/** What all displayed rates beside a strip say. */
type ShownVerdict = ShownRelation | 'mixed';

/** The wound: layers, what holds them until when, and the day when stitches come out. */
export interface WoundFacts {
  readonly healing: Fact<'edge to edge' | 'left open'>;
  /** Where the wound is in the mouth. */
  readonly mouth?: Fact<true>;
  /** Where the edges are joined around an opening that is meant to stay. */
  readonly opening?: Fact<true>;
  /** Where a wound that is left open goes home without a bandage. */
  readonly bare?: Fact<true>;
  /** mm */
  readonly edgeGap: Fact<number>;
  readonly tension: Fact<'none' | 'some' | 'high'>;
  readonly slowerBecause: readonly string[];
  readonly layers: readonly {
    readonly layer: Layer;
    readonly material: Material;
    readonly size: string | null;
    /** Diameter of the strand in mm, from and to. */
    readonly diameter: readonly [number, number] | null;
    readonly pattern: string;
    readonly behaviour: MaterialBehaviour;
    readonly hold: Hold;
  }[];
  readonly estimate: Fact<HealingEstimate>;
  readonly skin: Fact<SkinStitches>;
  /** Null where nothing is removed. */
  readonly removal: Fact<RemovalVisit> | null;
  readonly drain: DrainFacts | null;
}

/** A drain and the day on which it comes out. */
export interface DrainFacts {
  readonly what: Drain;
  /** Days after surgery at which it comes out. */
  readonly after: Fact<number>;
  /** The open day nearest to that, `YYYY-MM-DD`. */
  readonly on: Stated<string>;
}

/** What happens at home: medicines, collar, rest, visits. */
export interface HomeFacts {
  /** IANA time zone of the home, by whose clock the doses are told. */
  readonly timeZone: Fact<string>;
  /** Those with hours of their own. */
  readonly medicines: readonly MedicineFacts[];
  /** Those that are given only as needed. */
  readonly asNeeded: readonly AsNeededFacts[];
  /** How late a dose may be before the owner has to call, where the clinic states it and it suits every medicine. */
  readonly lateBy?: Stated<Quantity<'h' | 'min'>>;
  /** Last day with the collar on, `YYYY-MM-DD`. */
  readonly collarUntil: Stated<string>;
  readonly restUntil: Fact<string>;
  readonly rechecks: readonly {
    readonly what: string;
    readonly on: Stated<string>;
    /** Other open days near it. */
    readonly others: readonly string[];
  }[];
  readonly awaited: readonly { readonly result: string; readonly expected: Fact<string> }[];
}

/** The way from the day at home to full activity, and what to watch for on it. */
export interface PlanFacts {
  readonly food: Stated<{
    /** The clinic's local time, `YYYY-MM-DDTHH:MM`. */
    readonly from: string;
    /** Whether the patient may eat as soon as it is home. */
    readonly atOnce: boolean;
    readonly amount: FirstMeal;
    readonly kind: Food;
  }>;
  /** Where the anesthesia has worn off by the time the patient goes home. */
  readonly awake?: Fact<true>;
  readonly course: Fact<CarePlan>;
  /** Last day of soft food alone, `YYYY-MM-DD`, where there is such a time. */
  readonly softUntil?: Fact<string>;
  /** First day for a bath, `YYYY-MM-DD`. */
  readonly bathFrom: Stated<string>;
  /** First day on which a dog may swim, that of full activity, where it is not that of the bath. */
  readonly swimFrom?: Stated<string>;
  /** First day of full activity, `YYYY-MM-DD`. */
  readonly fullFrom: Stated<string>;
  /** Whether an opioid was given within a day before going home, or is given at home. */
  readonly opioid: Fact<boolean>;
  /** What the warning signs speak of, beside those of the procedure. */
  readonly signs: Fact<readonly SignTopic[]>;
}

/** What is told of every medicine for home, with hours or as needed: strength, amount, mg/kg. */
export interface HomeMedicine {
  readonly drug: string;
  readonly purpose: string;
  readonly strength: string;
  readonly give: Quantity;
  readonly route: string;
  readonly food: 'with food' | 'without food' | 'either';
  /** How the amount is measured at home. */
  readonly measure: Fact<Measure>;
  /** The clinic's local time of the last dose there, `YYYY-MM-DDTHH:MM`. */
  readonly lastGiven: Stated<string>;
  /** mg at one time, and per kg of body weight; not known of what is smeared on. */
  readonly milligram: Stated<number>;
  readonly perKilogram: Stated<number>;
  /** The most mg per kg within 24 hours. */
  readonly perKilogramDay: Stated<number>;
  /** The row of the clinic's formulary that the dose was checked against. */
  readonly checked: Stated<FormularyCheck>;
  /** Amount needed for its own home doses, or for the most that may be given, in the unit of `give`. */
  readonly needed: Stated<number>;
  readonly dispensed: Stated<Quantity>;
}

/** A medicine for home with hours of its own: every dose as a zoned instant. */
export interface MedicineFacts extends HomeMedicine, InCourse {
  readonly rhythm: Rhythm;
  /** The home's local time of each dose, `YYYY-MM-DDTHH:MM±HH:MM`. */
  readonly doses: Fact<readonly string[]>;
  /** The first dose as it was computed, where a rule of the clinic rounded it up: one interval after the last one there. */
  readonly exactFirst?: Fact<string>;
  /** Where doses move on the clock because it was changed. */
  readonly clockChanges: Fact<readonly ClockChange[]>;
}

/** A medicine for home that is given only as needed: it has no hours, but limits. */
export interface AsNeededFacts extends HomeMedicine {
  /** What the owner sees before giving it, as the record completes "only if". */
  readonly sign: Fact<string>;
  /** Hours from one dose to the next at the least. */
  readonly apart: Fact<number>;
  /** The most doses within 24 hours: as the record says, else as many as the hours between two of them leave room for. */
  readonly mostInDay: Fact<number>;
  /** The most doses in all that the record allows. */
  readonly mostInAll: Stated<number>;
  /** As many doses as all limits together leave room for. */
  readonly mostDoses: Fact<number>;
  /** The home's local time from which on it may be given, `YYYY-MM-DDTHH:MM±HH:MM`. */
  readonly notBefore: Fact<string>;
  /** The last day on which it may be given, `YYYY-MM-DD`. */
  readonly until: Fact<string>;
  /** For how many doses what was handed out is enough. */
  readonly enoughFor: Stated<number>;
}

/** The row of the clinic's formulary that a medicine was held against. */
export interface FormularyCheck {
  /** mg per kg at one time. */
  readonly dose: Span;
  /** mg per kg in a day. */
  readonly mostInDay: number;
  /** From dose to dose. */
  readonly hours: Span;
  readonly notes: string | null;
}

/** What the author chose for the public pages. */
export interface Published {
  readonly title: string;
  readonly patient: string;
  readonly address: string;
}

/** Freezes facts all the way down, so that no document can change what another one says. */
export function freeze<T>(value: T): T {
  // What is frozen already may hold what is not, as a schema freezes the outermost object alone.
  if (typeof value === 'object' && value !== null && !ArrayBuffer.isView(value)) {
    Object.freeze(value);
    for (const part of Object.values(value)) freeze(part);
  }
  return value;
}

import type { Possible, RulingName, WithinName } from '../../src/signal/rhythm/rhythm.js';
import type { BeatPlan } from '../synth/beat-plan.js';
import { randomFrom } from '../synth/random.js';
import {
  atrialFlutterTwoToOne,
  atrialTachycardiaTwoToOne,
} from '../synth/rhythms/atrial-two-to-one.js';
import { completeBlock, conductedOneOf } from '../synth/rhythms/av-block-advanced.js';
import { RHYTHMS, type Setting } from '../synth/rhythms/index.js';
import { ripplesIn } from '../synth/rhythms/ripples.js';
import { planOn, stageOf } from '../synth/rhythms/setting.js';
import { sinus } from '../synth/rhythms/sinus.js';
import { unevenSinus } from '../synth/rhythms/uneven-sinus.js';
import { ventricularFusion } from '../synth/rhythms/ventricular-fusion.js';
import { meanRate, truthOf } from '../synth/truth.js';
import { coveredOrOnTShare, coveredShare } from './covered-p.js';

export const GROUPS = [
  'sinus',
  'atrioventricular block',
  'supraventricular',
  'ventricular beats in sinus rhythm',
  'ventricular',
  'no beats',
] as const;

/** Lowest and highest, beats/min. */
type Rates = readonly [number, number];

export interface TrueRhythm {
  readonly group: (typeof GROUPS)[number];
  /** The rate of a strip is drawn from these; they stay clear of the limits that a name depends on. */
  readonly rates: { readonly dog: Rates; readonly cat: Rates };
  /** What `rates` count, where that is not the beats. */
  readonly counting?: 'P waves' | 'sinus beats';
  readonly plan: (setting: Setting & { readonly species: 'dog' | 'cat' }) => BeatPlan;
  /** Names that a stretch of it may bear. */
  readonly names: readonly RulingName[];
  /** What a strip that is left open may say in their place. */
  readonly mayBe?: readonly Possible[];
  /** For a truth that is an event in sinus rhythm: one of these must be found. */
  readonly events?: readonly WithinName[];
  /**
   * What no single strip can tell from it, as the plan of the strip makes it: to name it with these and nothing else
   * is all that can rightly be said. Left out where a strip holds what tells it from others.
   */
  readonly lookAlikes?: (plan: BeatPlan) => readonly Possible[];
  /** What names the event beside another that looks the same: it leaves the strip open. */
  readonly openEvent?: WithinName;
  /** `never normal`: a normal name is an accident. `not normal`: it is wrong. `sinus`: led by the sinus node. */
  readonly danger: 'never normal' | 'not normal' | 'sinus';
}

const LIKELY: TrueRhythm['rates'] = { dog: [65, 140], cat: [115, 200] };
const SLOW: TrueRhythm['rates'] = { dog: [30, 55], cat: [60, 92] };
const NONE: TrueRhythm['rates'] = { dog: [0, 0], cat: [0, 0] };

/** Names of a sinus rhythm with events; the events may make it look uneven. */
const SINUS: readonly RulingName[] = [
  'sinus rhythm',
  'sinus arrhythmia',
  'sinus arrhythmia not linked to breath',
];

const within = (
  group: TrueRhythm['group'],
  plan: TrueRhythm['plan'],
  events: readonly WithinName[],
  rates = LIKELY,
): TrueRhythm => ({
  group,
  rates,
  counting: 'sinus beats',
  plan,
  names: SINUS,
  events,
  danger: 'sinus',
  mayBe: A_SINUS,
});

/** What the engine says where atria twice as fast would look the same. */
const A_SINUS: readonly Possible[] = ['a sinus rhythm'];
const FAST_ATRIA: readonly Possible[] = [
  'atrial tachycardia or flutter of which each second wave is conducted',
];

/** Atria this fast, beats/min, are not led by a sinus node. Common practice. */
const SINUS_CEILING = { dog: 220, cat: 280, rabbit: Number.NaN } as const;

/** Of all P waves: every second one is covered, or every one. */
const COVERED = { second: 0.4, all: 0.9 };

/**
 * The look-alikes of atria of which each second wave is conducted: a sinus rhythm where each second P hides in a T or in
 * a QRS, a junctional one as well where both do, or the other may as well be a part of T; a block where all are seen and no faster than a sinus node may be; none
 * where they are.
 */
function fasterAtria(plan: BeatPlan): readonly Possible[] {
  const covered = coveredShare(plan);
  if (covered >= COVERED.second) {
    const isAnySure = coveredOrOnTShare(plan) < COVERED.all;
    return [...A_SINUS, ...FAST_ATRIA, ...(isAnySure ? [] : (['a junctional rhythm'] as const))];
  }
  const atrial = 2 * meanRate(truthOf(plan).beats);
  return atrial <= SINUS_CEILING[plan.species]
    ? [...FAST_ATRIA, 'a second-degree atrioventricular block']
    : [];
}

const VPC: readonly WithinName[] = ['ventricular premature complexes'];
const IN_SINUS = 'ventricular beats in sinus rhythm';

/** Every rhythm of the truth page. */
export const TRUE_RHYTHMS = {
  'sinus rhythm': {
    group: 'sinus',
    rates: { dog: [65, 150], cat: [110, 225] },
    plan: (setting) => sinus(setting),
    names: ['sinus rhythm'],
    danger: 'sinus',
    mayBe: A_SINUS,
  },
  'sinus bradycardia': {
    group: 'sinus',
    rates: SLOW,
    plan: (setting) => sinus(setting),
    names: ['sinus bradycardia'],
    danger: 'sinus',
    mayBe: A_SINUS,
  },
  'sinus tachycardia': {
    group: 'sinus',
    rates: { dog: [170, 210], cat: [250, 272] },
    plan: (setting) => sinus(setting),
    names: ['sinus tachycardia'],
    danger: 'sinus',
    mayBe: A_SINUS,
  },
  'sinus rhythm, tall T': {
    group: 'sinus',
    rates: { dog: [65, 150], cat: [110, 210] },
    plan: (setting) => sinus(setting, { tToR: drawn(setting, 0.6, 1.2) }),
    names: ['sinus rhythm'],
    danger: 'sinus',
    mayBe: A_SINUS,
  },
  'breath-linked sinus arrhythmia': {
    group: 'sinus',
    rates: { dog: [75, 120], cat: [125, 170] },
    plan: (setting) =>
      RHYTHMS['breath-linked-sinus']({ ...setting, breathsPerMinute: drawn(setting, 9, 18) }),
    // Few breaths leave it open whether the beats follow them.
    names: ['breath-linked sinus arrhythmia', 'sinus arrhythmia'],
    danger: 'sinus',
    mayBe: A_SINUS,
  },
  'sinus arrhythmia, not linked': {
    group: 'sinus',
    rates: { dog: [85, 120], cat: [140, 185] },
    plan: (setting) => unevenSinus({ ...setting, breathsPerMinute: drawn(setting, 9, 18) }),
    names: ['sinus arrhythmia not linked to breath', 'sinus arrhythmia'],
    danger: 'sinus',
    mayBe: A_SINUS,
  },
  // Pauses lower the mean rate by a fifth: from these it stays over that of a bradycardia.
  'sinus pause': within('sinus', RHYTHMS['sinus-pause'], ['sinus pause'], {
    dog: [80, 140],
    cat: [135, 200],
  }),
  'supraventricular premature': within('supraventricular', RHYTHMS['supraventricular-premature'], [
    'supraventricular premature complexes',
  ]),
  'supraventricular tachycardia': {
    group: 'supraventricular',
    rates: { dog: [230, 320], cat: [290, 370] },
    plan: RHYTHMS['supraventricular-tachycardia'],
    names: ['supraventricular tachycardia'],
    danger: 'not normal',
  },
  'atrial tachycardia 2:1, P in T': {
    group: 'supraventricular',
    rates: { dog: [100, 175], cat: [130, 205] },
    plan: (setting) => atrialTachycardiaTwoToOne(setting, 'in T'),
    names: ['supraventricular tachycardia'],
    mayBe: FAST_ATRIA,
    lookAlikes: fasterAtria,
    danger: 'never normal',
  },
  'atrial tachycardia 2:1, P beside T': {
    group: 'supraventricular',
    rates: { dog: [100, 200], cat: [130, 240] },
    plan: (setting) => atrialTachycardiaTwoToOne(setting, 'beside T'),
    names: ['supraventricular tachycardia'],
    mayBe: FAST_ATRIA,
    lookAlikes: fasterAtria,
    danger: 'never normal',
  },
  'atrial flutter 2:1': {
    group: 'supraventricular',
    rates: { dog: [130, 220], cat: [150, 250] },
    plan: atrialFlutterTwoToOne,
    names: ['supraventricular tachycardia'],
    mayBe: FAST_ATRIA,
    // Of the saw a QRS and T leave one wave to be seen, or what is no wave to the eye.
    lookAlikes: () => [...A_SINUS, ...FAST_ATRIA, 'a junctional rhythm'],
    danger: 'never normal',
  },
  'atrial fibrillation': {
    group: 'supraventricular',
    rates: { dog: [100, 240], cat: [140, 260] },
    plan: RHYTHMS['atrial-fibrillation'],
    names: ['atrial fibrillation'],
    danger: 'never normal',
  },
  'atrial standstill': {
    group: 'supraventricular',
    rates: SLOW,
    plan: RHYTHMS['atrial-standstill'],
    mayBe: ['a junctional rhythm, the atria at rest or not'],
    names: ['atrial standstill'],
    danger: 'not normal',
  },
  'first-degree block': {
    group: 'atrioventricular block',
    rates: LIKELY,
    plan: RHYTHMS['av-block-first'],
    names: ['first-degree atrioventricular block'],
    mayBe: A_SINUS,
    danger: 'not normal',
  },
  'second-degree block, lengthening PR': {
    group: 'atrioventricular block',
    rates: LIKELY,
    counting: 'P waves',
    plan: RHYTHMS['av-block-second-lengthening'],
    names: ['second-degree atrioventricular block, lengthening PR'],
    danger: 'not normal',
  },
  'second-degree block, constant PR': {
    group: 'atrioventricular block',
    rates: LIKELY,
    counting: 'P waves',
    plan: RHYTHMS['av-block-second-fixed'],
    names: ['second-degree atrioventricular block, constant PR'],
    danger: 'not normal',
  },
  'second-degree block, 2:1': {
    group: 'atrioventricular block',
    rates: { dog: [80, 170], cat: [130, 230] },
    counting: 'P waves',
    plan: (setting) => conductedOneOf(2, setting),
    mayBe: ['atrioventricular block with an escape rhythm'],
    names: [
      'second-degree atrioventricular block, constant PR',
      'second-degree atrioventricular block, high-grade',
    ],
    danger: 'never normal',
  },
  'second-degree block, high-grade': {
    group: 'atrioventricular block',
    rates: { dog: [90, 180], cat: [140, 240] },
    counting: 'P waves',
    plan: (setting) => conductedOneOf(drawn(setting, 0, 1) < 0.5 ? 3 : 4, setting),
    names: ['second-degree atrioventricular block, high-grade'],
    danger: 'never normal',
  },
  'third-degree block, wide escape': {
    group: 'atrioventricular block',
    rates: { dog: [90, 170], cat: [140, 230] },
    counting: 'P waves',
    plan: (setting) =>
      completeBlock(setting, { rate: escapeRate(setting, [25, 50], [55, 90]), from: 'ventricle' }),
    names: ['third-degree atrioventricular block'],
    danger: 'never normal',
  },
  'third-degree block, narrow escape': {
    group: 'atrioventricular block',
    rates: { dog: [90, 170], cat: [140, 230] },
    counting: 'P waves',
    plan: (setting) =>
      completeBlock(setting, { rate: escapeRate(setting, [40, 60], [75, 110]), from: 'junction' }),
    mayBe: ['atrioventricular block with an escape rhythm'],
    names: ['third-degree atrioventricular block'],
    danger: 'never normal',
  },
  'ventricular premature, single': within(IN_SINUS, RHYTHMS['ventricular-singles'], VPC),
  'ventricular premature, pairs': within(IN_SINUS, RHYTHMS['ventricular-pairs'], VPC, {
    dog: [65, 130],
    cat: [115, 180],
  }),
  'ventricular bigeminy': within(IN_SINUS, RHYTHMS['ventricular-bigeminy'], VPC),
  'ventricular trigeminy': within(IN_SINUS, RHYTHMS['ventricular-trigeminy'], VPC),
  'ventricular fusion': {
    ...within(IN_SINUS, ventricularFusion, ['ventricular fusion complexes', ...VPC]),
    openEvent: 'wide complexes on time',
  },
  'runs of ventricular tachycardia': within(
    IN_SINUS,
    RHYTHMS['ventricular-runs'],
    ['run of ventricular tachycardia'],
    { dog: [90, 130], cat: [130, 180] },
  ),
  'accelerated idioventricular rhythm': {
    group: 'ventricular',
    rates: { dog: [65, 150], cat: [110, 225] },
    plan: RHYTHMS['ventricular-tachycardia'],
    names: ['accelerated idioventricular rhythm'],
    danger: 'not normal',
  },
  'idioventricular rhythm': {
    group: 'ventricular',
    rates: SLOW,
    plan: RHYTHMS.idioventricular,
    names: ['idioventricular rhythm'],
    danger: 'not normal',
  },
  'ventricular tachycardia': {
    group: 'ventricular',
    rates: { dog: [170, 290], cat: [250, 330] },
    plan: RHYTHMS['ventricular-tachycardia'],
    names: ['ventricular tachycardia'],
    danger: 'never normal',
  },
  'ventricular fibrillation': {
    group: 'no beats',
    rates: NONE,
    plan: (setting) => {
      const stage = stageOf(setting);
      const rms = drawn(setting, 0.1, 0.3) * stage.template.r.amplitude;
      return planOn(stage, { ripples: ripplesIn({ rms, from: 4.5, to: 8.5 }, stage.random) });
    },
    names: ['ventricular fibrillation'],
    danger: 'never normal',
  },
  asystole: {
    group: 'no beats',
    rates: NONE,
    plan: RHYTHMS.asystole,
    names: ['asystole'],
    // No other channel is recorded with these strips.
    lookAlikes: () => ['asystole', 'a lead that came off'],
    danger: 'never normal',
  },
} as const satisfies Readonly<Record<string, TrueRhythm>>;

export type TrueName = keyof typeof TRUE_RHYTHMS;
export const TRUE_NAMES = Object.keys(TRUE_RHYTHMS) as TrueName[];

/** A number of its own for the strip's seed, apart from the stream that places the beats. */
function drawn({ seed }: Setting, low: number, high: number): number {
  return randomFrom(seed ^ 0x2545f491).between(low, high);
}

function escapeRate(setting: Setting, dog: Rates, cat: Rates): number {
  const [low, high] = setting.species === 'cat' ? cat : dog;
  return drawn(setting, low, high);
}

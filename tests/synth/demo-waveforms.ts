import { type EdfAnnotation, type EdfSignal, writeEdf } from '../../src/publish/pack/write-edf.js';
import { writeWfdb } from '../../src/publish/pack/write-wfdb.js';
import type { BeatPlan } from './beat-plan.js';
import { capnogram } from './capnogram.js';
import { makeNoise, withNoise } from './noise.js';
import { randomFrom } from './random.js';
import { type Lead, renderLead } from './render.js';
import { breathLinkedSinus } from './rhythms/breath-linked-sinus.js';
import { sinus } from './rhythms/sinus.js';
import { ventricularSingles } from './rhythms/ventricular-premature.js';
import { meanRate, type Truth, truthOf } from './truth.js';
import { writeCsv } from './write-csv.js';

/** A file of the demonstration clinic, its path relative to `demo-data/`. */
export interface DemoFile {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** What is known of a demonstration strip because it was planned. */
export interface DemoTruth extends Truth {
  /** Local time of the first sample; null where the file cannot tell it. */
  readonly startsAt: string | null;
  readonly duration: number;
  readonly samplingRate: number;
  /** Beats/min over the whole strip, every kind of beat counted. */
  readonly meanRate: number;
  /** Places in `beats` of the ventricular ones, from 0. */
  readonly ventricularIndexes: readonly number[];
}

export type DemoCase = 'juniper' | 'bramble' | 'pumpernickel' | 'saffron' | 'tucker' | 'clover';

/** Noise that an ordinary, well-fixed recording carries, mV. */
interface Finish {
  readonly wander: number;
  readonly mains: number;
  readonly muscle: number;
}

interface Strip {
  readonly plan: BeatPlan;
  readonly samplingRate: number;
  readonly seed: number;
  readonly startsAt: string | null;
  readonly finish: Finish;
  readonly files: (
    strip: Strip,
  ) => readonly { readonly name: string; readonly bytes: Uint8Array }[];
}

const DOG_FINISH: Finish = { wander: 0.07, mains: 0.012, muscle: 0.006 };
const SMALL_FINISH: Finish = { wander: 0.035, mains: 0.007, muscle: 0.004 };

const STRIPS: Readonly<Record<DemoCase, Strip>> = {
  juniper: {
    plan: breathLinkedSinus({
      species: 'dog',
      duration: 60,
      seed: 101,
      rate: 88,
      breathsPerMinute: 8,
    }),
    samplingRate: 500,
    seed: 102,
    startsAt: '2026-03-10T10:05:00',
    finish: DOG_FINISH,
    files: (strip) => [
      {
        name: 'strip.edf',
        bytes: writeEdf({
          startsAt: strip.startsAt!,
          signals: [edfLead(strip), edfCapnogram(strip.plan)],
          annotations: ventilatorNotes(strip.plan),
        }),
      },
    ],
  },
  bramble: {
    plan: sinus(
      { species: 'dog', duration: 40, seed: 201, rate: 74 },
      { tToR: 0.9, qrsFactor: 0.75, jitter: 0.008 },
    ),
    samplingRate: 500,
    seed: 202,
    startsAt: '2026-03-17T09:40:30',
    finish: DOG_FINISH,
    files: (strip) => [
      {
        name: 'strip.edf',
        bytes: writeEdf({ startsAt: strip.startsAt!, signals: [edfLead(strip)] }),
      },
    ],
  },
  pumpernickel: {
    plan: sinus({ species: 'cat', duration: 40, seed: 301, rate: 168 }, { jitter: 0.009 }),
    samplingRate: 500,
    seed: 302,
    startsAt: '2026-04-02T11:12:00',
    finish: SMALL_FINISH,
    files: (strip) => wfdbLeads(strip, 212, 400),
  },
  saffron: {
    plan: sinus({ species: 'cat', duration: 40, seed: 401, rate: 150 }, { endRate: 190 }),
    samplingRate: 250,
    seed: 402,
    startsAt: null,
    finish: SMALL_FINISH,
    files: (strip) => [
      {
        name: 'strip.csv',
        bytes: writeCsv(strip.samplingRate, [
          { label: 'II', unit: 'mV', samples: recordedLead(strip, 'II') },
        ]),
      },
    ],
  },
  tucker: {
    plan: ventricularSingles(
      { species: 'dog', duration: 60, seed: 501, rate: 96 },
      [9, 21, 33, 47, 60, 72, 87],
    ),
    samplingRate: 250,
    seed: 502,
    startsAt: '2026-04-21T14:20:00',
    finish: DOG_FINISH,
    files: (strip) => wfdbLeads(strip, 16, 2000),
  },
  clover: {
    plan: sinus({ species: 'rabbit', duration: 30, seed: 601, rate: 214 }, { jitter: 0.008 }),
    samplingRate: 500,
    seed: 602,
    startsAt: '2026-05-05T08:55:00',
    finish: { wander: 0.02, mains: 0.004, muscle: 0.003 },
    files: (strip) => [
      {
        name: 'strip.edf',
        bytes: writeEdf({ startsAt: strip.startsAt!, signals: [edfLead(strip)] }),
      },
    ],
  },
};

const CASES = Object.keys(STRIPS) as DemoCase[];

/** All waveform files of the demonstration cases, made anew; the same bytes every time. */
export function demoWaveforms(): DemoFile[] {
  return CASES.flatMap((name) => {
    const strip = STRIPS[name];
    return strip
      .files(strip)
      .map((file) => ({ path: `cases/${name}/${file.name}`, bytes: file.bytes }));
  });
}

/** What a perfect reader of each strip would find. */
export const DEMO_TRUTH: Readonly<Record<DemoCase, DemoTruth>> = Object.fromEntries(
  CASES.map((name) => [name, demoTruth(STRIPS[name])]),
) as Record<DemoCase, DemoTruth>;

function demoTruth({ plan, samplingRate, startsAt }: Strip): DemoTruth {
  const truth = truthOf(plan);
  return {
    ...truth,
    startsAt,
    duration: plan.duration,
    samplingRate,
    meanRate: meanRate(truth.beats),
    ventricularIndexes: truth.beats.flatMap(({ kind }, i) => (kind === 'ventricular' ? [i] : [])),
  };
}

/** One lead as a recorder would have stored it, mV. The leads of a strip share mains, not muscle. */
function recordedLead({ plan, samplingRate, seed, finish }: Strip, lead: Lead): Float64Array {
  const clean = renderLead(plan, samplingRate, lead);
  const options = { length: clean.length, samplingRate };
  const own = randomFrom(seed + (lead === 'II' ? 0 : 1000));
  return withNoise(
    clean,
    makeNoise('wander', { ...options, amplitude: finish.wander, random: own }),
    makeNoise('muscle', { ...options, amplitude: finish.muscle, random: own }),
    makeNoise('mains', { ...options, amplitude: finish.mains, random: randomFrom(seed + 1) }),
  );
}

function edfLead(strip: Strip): EdfSignal {
  return {
    label: 'ECG II',
    unit: 'mV',
    samplingRate: strip.samplingRate,
    samples: recordedLead(strip, 'II'),
    physicalMin: -10,
    physicalMax: 10,
    digitalMin: -32000,
    digitalMax: 32000,
  };
}

function edfCapnogram({ breaths, duration }: BeatPlan): EdfSignal {
  return {
    label: 'CO2',
    unit: 'mmHg',
    samplingRate: 25,
    samples: capnogram(breaths, duration, 25, { endTidal: 41 }),
    physicalMin: 0,
    physicalMax: 100,
    digitalMin: 0,
    digitalMax: 10000,
  };
}

function ventilatorNotes({ breaths }: BeatPlan): EdfAnnotation[] {
  return [
    { onset: 0, text: 'ventilator on 8/min' },
    ...breaths.map(({ time, inspiration }) => ({
      onset: time,
      duration: inspiration,
      text: 'breath',
    })),
  ];
}

function wfdbLeads(
  strip: Strip,
  format: 16 | 212,
  gain: number,
): { name: string; bytes: Uint8Array }[] {
  const { hea, dat } = writeWfdb({
    name: 'strip',
    format,
    samplingRate: strip.samplingRate,
    startsAt: strip.startsAt!,
    signals: (['I', 'II'] as const).map((lead) => ({
      description: lead,
      unit: 'mV',
      gain,
      samples: recordedLead(strip, lead),
    })),
  });
  return [
    { name: 'strip.hea', bytes: hea },
    { name: 'strip.dat', bytes: dat },
  ];
}

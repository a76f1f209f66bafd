import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type EdfSignal, writeEdf } from '../../../src/publish/pack/write-edf.js';
import { good } from '../../../src/record/problem.js';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { ecgLeads } from '../../../src/signal/ecg-lead.js';
import { readWaveform } from '../../../src/signal/files/read.js';
import { type Pulse, pulseOver } from '../../../src/signal/pulse/pulse.js';
import type { PulseReading } from '../../../src/signal/pulse/reading-pulse.js';
import { reason } from '../../../src/signal/reason.js';
import { NORMAL } from '../../../src/signal/rhythm/rhythm.js';
import { rhythmSpans } from '../../../src/signal/rhythm/spans.js';
import type { FoundRhythm } from '../../../src/signal/strip-analysis.js';
import { sayReasons } from '../../../src/words/reason.js';
import { accepted } from '../../record/sample.js';
import { capnogram } from '../../synth/capnogram.js';
import { arterialPressure, plethysmogram } from '../../synth/pulse-wave.js';
import { randomFrom } from '../../synth/random.js';
import { RHYTHMS, type RhythmName } from '../../synth/rhythms/index.js';
import { writeCsv } from '../../synth/write-csv.js';
import { ENGLISH } from '../../tools/english.js';
import { patientOf, renderedLeads, stripFromTruth } from '../rhythm/strips.js';

const FS = 500;
const STOPS = 20;
const DURATION = 40;

interface Scene {
  readonly rhythm?: RhythmName;
  /** When the lead shows nothing more, s. */
  readonly ecgUntil?: number;
  readonly pressureUntil?: number;
  readonly plethUntil?: number;
  readonly co2Until?: number;
}

interface Track {
  readonly label: string;
  readonly unit: string;
  readonly range: number;
  readonly samples: Float64Array;
}

/** Lead II and the channels that the scene names; after their time they show what no pulse shows. */
function tracks({ rhythm = 'sinus', ecgUntil, pressureUntil, plethUntil, co2Until }: Scene) {
  const plan = RHYTHMS[rhythm]({ species: 'dog', duration: DURATION, seed: 4201 });
  const lead = renderedLeads(
    { ...plan, beats: plan.beats.filter(({ time }) => time < (ecgUntil ?? DURATION)) },
    4202,
    [],
  )[0]!;
  const out: Track[] = [{ label: 'II', unit: 'mV', range: 5, samples: lead.samples }];
  const until = (end: number) => ({
    duration: DURATION,
    samplingRate: FS,
    beats: plan.beats.map(({ time }) => time).filter((time) => time < end),
    random: randomFrom(4203),
  });
  if (pressureUntil !== undefined) {
    const samples = arterialPressure(until(pressureUntil));
    out.push({ label: 'ART', unit: 'mmHg', range: 300, samples });
  }
  if (plethUntil !== undefined) {
    out.push({ label: 'PLETH', unit: '', range: 5, samples: plethysmogram(until(plethUntil)) });
  }
  if (co2Until !== undefined) {
    const breathing = capnogram(plan.breaths, DURATION, FS, { endTidal: 40 });
    const samples = breathing.map((value, i) => (i / FS < co2Until ? value : 0));
    out.push({ label: 'CO2', unit: 'mmHg', range: 100, samples });
  }
  return out;
}

const edf = (scene: Scene): Uint8Array =>
  writeEdf({
    startsAt: '2026-03-10T10:05:00',
    signals: tracks(scene).map(
      ({ range, ...track }): EdfSignal => ({
        ...track,
        samplingRate: FS,
        physicalMin: -range,
        physicalMax: range,
        digitalMin: -32768,
        digitalMax: 32767,
      }),
    ),
  });

const csv = (scene: Scene): Uint8Array =>
  writeCsv(
    FS,
    tracks(scene).map(({ unit, ...track }) => ({ ...track, unit: unit || 'mV' })),
  );

function rhythmsIn(
  file: string,
  bytes: Uint8Array,
  readings: readonly PulseReading[] = [],
): readonly FoundRhythm[] {
  const waveform = accepted(readWaveform(file, () => good(bytes), {}));
  const leads = accepted(ecgLeads(waveform, 'II', { file }));
  return analyseStrip(leads, {
    patient: patientOf('dog'),
    breath: waveform,
    pulse: { channels: waveform.channels, readings },
  }).rhythms;
}

/** What is said of the middle of the time after the lead went flat. */
const afterwards = (rhythms: readonly FoundRhythm[]): FoundRhythm =>
  rhythms.find(({ from, to }) => from < 30 && to > 30)!;
const said = ({ because }: FoundRhythm): string => sayReasons(because, ENGLISH);

describe.each([
  ['EDF', 'strip.edf', edf],
  ['CSV', 'strip.csv', csv],
] as const)('a flat line in an %s file', (_, file, write) => {
  it('is asystole where the arterial pressure runs off', () => {
    const rhythms = rhythmsIn(file, write({ ecgUntil: STOPS, pressureUntil: STOPS }));
    const flat = afterwards(rhythms);
    expect(flat.name).toBe('asystole');
    expect(said(flat)).toMatch(
      /arterial pressure "ART" has its last pulse at 19\.\d s and runs off/,
    );
    expect(rhythms[0]?.name).toBe('sinus rhythm');
  });

  it('is a lead that came off, and nothing else, where the pressure pulses on', () => {
    const flat = afterwards(rhythmsIn(file, write({ ecgUntil: STOPS, pressureUntil: DURATION })));
    expect(flat.name).toBe('cannot be told');
    expect(flat.possible).toEqual(['a lead that came off']);
    expect(said(flat)).toMatch(/arterial pressure "ART" pulses \d+ times/);
  });

  it('is a lead that came off where the plethysmogram pulses on', () => {
    const flat = afterwards(rhythmsIn(file, write({ ecgUntil: STOPS, plethUntil: DURATION })));
    expect(flat.possible).toEqual(['a lead that came off']);
  });

  it.each<[string, Scene]>([
    ['no other channel is there', {}],
    ['a plethysmogram alone goes flat with it', { plethUntil: STOPS }],
    ['plethysmogram and CO2 go flat with it', { plethUntil: STOPS, co2Until: STOPS }],
    ['the pressure and the plethysmogram differ', { pressureUntil: STOPS, plethUntil: DURATION }],
  ])('may be either where %s', (_, scene) => {
    const flat = afterwards(rhythmsIn(file, write({ ecgUntil: STOPS, ...scene })));
    expect(flat.name).toBe('cannot be told');
    expect(flat.possible).toEqual(['asystole', 'a lead that came off']);
  });

  it('is asystole where plethysmogram and measured pressure fall together', () => {
    const bytes = write({ ecgUntil: STOPS, plethUntil: STOPS });
    const reading = (second: number, value: number): PulseReading => ({
      second,
      value,
      of: 'mean pressure',
      line: second > 0 ? 9 : 8,
    });
    const flat = afterwards(rhythmsIn(file, bytes, [reading(-240, 74), reading(55, 17)]));
    expect(flat.name).toBe('asystole');
    expect(said(flat)).toContain('the mean pressure fell to 17 mmHg (vitals line 9)');
  });
});

describe('beats without a pulse', () => {
  it('are never told as a sinus rhythm, from the last pulse on', () => {
    const rhythms = rhythmsIn('strip.edf', edf({ pressureUntil: STOPS }));
    const after = afterwards(rhythms);
    expect(rhythms[0]?.name).toBe('sinus rhythm');
    expect(after.name).toBe('cannot be told');
    expect(after.possible).toEqual(['electrical activity without a pulse']);
    expect(said(after)).toContain('by its shape: Sinus rhythm');
    const normal = rhythms.filter(({ name }) => NORMAL.some((each) => each === name));
    expect(Math.max(...normal.map(({ to }) => to))).toBeLessThan(STOPS + 3);
  });

  it('keep the name of any other rhythm, which says first that there is no pulse', () => {
    const after = afterwards(
      rhythmsIn('strip.edf', edf({ rhythm: 'ventricular-tachycardia', pressureUntil: STOPS })),
    );
    expect(after.name).toBe('ventricular tachycardia');
    expect(after.because[0]).toEqual(reason('pulse in other channels', { pulse: 'absent' }));
  });

  it('are a sinus rhythm as before where the pressure pulses with them', () => {
    const rhythms = rhythmsIn('strip.edf', edf({ pressureUntil: DURATION }));
    expect(rhythms.map(({ name }) => name)).toEqual(['sinus rhythm']);
  });
});

describe('asystole', () => {
  const MADE_UP = reason('plethysmogram loses its pulse', { label: 'made up', at: 0 });
  const flat = stripFromTruth(RHYTHMS.asystole({ species: 'dog', duration: 20, seed: 4204 }), 4204);
  const time = fc.double({ min: -5, max: 25, noNaN: true });
  const pulse: fc.Arbitrary<Pulse> = fc.record({
    from: time,
    to: time,
    pulse: fc.constantFrom('present' as const, 'absent' as const, 'cannot tell' as const),
    holds: fc.constantFrom('throughout' as const, 'at a moment' as const),
    because: fc.constant([MADE_UP]),
  });
  const sorted = (each: Pulse): Pulse => ({
    ...each,
    from: Math.min(each.from, each.to),
    to: Math.max(each.from, each.to),
  });

  it('is never named without an absent pulse, nor a lead that came off alone without a pulse', () => {
    fc.assert(
      fc.property(fc.array(pulse, { maxLength: 5 }), (made) => {
        const pulses = made.map(sorted);
        for (const { from, to, ruling } of rhythmSpans({ ...flat, pulses })) {
          const verdict = pulseOver(pulses, from, to);
          if (ruling.kind === 'named') expect(ruling.finding.name).toBe('asystole');
          expect(ruling.kind === 'named').toBe(verdict === 'absent');
          if (verdict === 'absent')
            expect(pulses.some((each) => each.pulse === 'absent')).toBe(true);
          if (ruling.kind === 'cannot be told') {
            expect(ruling.possible.includes('asystole')).toBe(verdict !== 'present');
            expect(ruling.possible).toContain('a lead that came off');
          }
        }
      }),
      { numRuns: 60 },
    );
  });

  it('is named where a pulse is absent throughout', () => {
    const pulses: Pulse[] = [
      { from: 0, to: 20, pulse: 'absent', holds: 'throughout', because: [MADE_UP] },
    ];
    const [span] = rhythmSpans({ ...flat, pulses });
    expect(span?.ruling).toMatchObject({ kind: 'named', finding: { name: 'asystole' } });
  });
});

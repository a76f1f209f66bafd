import { seconds } from '../../units/brands.js';
import type { ShapeFamilies } from '../beats/families.js';
import { ownQrs } from '../beats/family-widths.js';
import { stretchOf } from '../filter/ascending.js';
import { withoutMains } from '../filter/excerpt.js';
import { differences, median } from '../filter/spread.js';
import type { BeatWaves, MarkedBeat, Patient, Wave } from '../marked-beat.js';
import type { Pulse } from '../pulse/pulse.js';
import type { Span } from '../quality/span.js';
import { reason } from '../reason.js';
import type { Channel } from '../waveform.js';
import { ESCAPE } from './accelerated-idioventricular.js';
import { acrossNoise } from './across-noise.js';
import { IDLE, LASTING } from './asystole.js';
import { mayHideP, whereAtriaAreUnseen } from './atria-unseen.js';
import { carriedOn } from './carried-on.js';
import { restlessStretches } from './evidence/activity.js';
import { hideWave, MARCH } from './evidence/dropped-beats.js';
import { type BreathVerdict, type Evidence, evidenceOf, type Strip } from './evidence/evidence.js';
import { sinusProof } from './evidence/sinus-proof.js';
import { wideRhythm } from './evidence/wide-rhythm.js';
import { foreignRows } from './foreign-rows.js';
import { RULES, WITHIN } from './handbook.js';
import { ledEdges } from './led-rows.js';
import { whereMayBePAlone } from './p-alone.js';
import { paceEdges } from './pace-edges.js';
import { pulseReasons } from './pulse-reasons.js';
import { NORMAL, type Possible } from './rhythm.js';
import type { RhythmSpan, Ruling } from './ruling.js';
import { BESIDE, standstillBetween } from './standstill-between.js';
import { untoldEnds } from './untold-ends.js';
import { fibrillating, RESTLESS_FOR, ventricularFibrillation } from './ventricular-fibrillation.js';
import { wavesAlone } from './ventricular-tachycardia.js';
import { withoutAPulse } from './without-a-pulse.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** What rhythms are told from. */
export interface RhythmInput {
  /** mV, beginning at the same instant. */
  readonly leads: readonly Channel[];
  /** The whole strip without hole or overlap: readable wherever any lead is. */
  readonly readable: readonly Span[];
  readonly beats: readonly BeatWaves[];
  /** Of all the beats on these leads, where they have been sorted already. */
  readonly shapes?: ShapeFamilies;
  /** The same beats with their kinds (`kindsOf`), where those have been told already. */
  readonly marked?: readonly MarkedBeat[];
  readonly loneP: readonly Wave[];
  readonly patient: Patient;
  readonly breath: BreathVerdict;
  /** What pressure or oximeter say of the pulse; empty where none was recorded. */
  readonly pulses: readonly Pulse[];
}

/** The strip as spans without hole or overlap, each with one ruling rhythm or the reason why none. */
export function rhythmSpans(input: RhythmInput): RhythmSpan[] {
  const strip: Known = {
    ...input,
    quiet: input.leads.map(withoutMains),
    known: new Map(),
    own: input.marked && input.shapes ? ownQrs(input.marked, input.shapes) : null,
  };
  const spans = input.readable.flatMap((span) => {
    if (!span.readable) return [unreadableSpan(strip, span)];
    return stretches(strip, span).flatMap(({ from, to }) => ruled(strip, from, to));
  });
  const together = acrossNoise(strip, spans, spanOf);
  return together.map(
    (span, i) =>
      carriedOver(strip, together, i) ??
      blockedFor(strip, together, i) ??
      movingFor(strip, together, i) ??
      span,
  );
}

/** A stretch without beats between beats that P leads, where P goes on in it. */
function blockedFor(strip: Known, spans: readonly RhythmSpan[], at: number): RhythmSpan | null {
  const around = aroundBeatless(strip, spans, at);
  if (!around) return null;
  const still = spans[at]!;
  const inside = evidenceIn(strip, still.from, still.to);
  const found = standstillBetween(around, inside);
  return found && { ...still, ruling: withoutAPulse(inside, found) };
}

/** A stretch without beats that moves as much as a beat would: some were missed in it. */
function movingFor(strip: Known, spans: readonly RhythmSpan[], at: number): RhythmSpan | null {
  const around = aroundBeatless(strip, spans, at);
  const missed = around && sinusProof(around).unmet.find(({ key }) => key === 'QRS in pauses');
  const { ruling } = spans[at]!;
  if (!missed || ruling.kind !== 'cannot be told') return null;
  return { ...spans[at]!, ruling: { ...ruling, because: [missed, ...ruling.because] } };
}

/** What is known of a stretch without name and beats together with the beats before it and behind it; null for any other. */
function aroundBeatless(strip: Known, spans: readonly RhythmSpan[], at: number): Evidence | null {
  const still = spans[at]!;
  const [before, after] = [spans[at - 1], spans[at + 1]];
  if (still.ruling.kind !== 'cannot be told' || still.beats.length > 0) return null;
  if (!before || !after) return null;
  const first = before.beats.at(-BESIDE) ?? before.beats[0];
  const last = after.beats[BESIDE - 1] ?? after.beats.at(-1);
  if (!first || !last) return null;
  return evidenceIn(strip, first.time - BEFORE_R, last.time + BEFORE_R);
}

/** The P of a beat begins no longer before R, s. */
const BEFORE_R = 0.3;

/** A stretch of too few beats under the name of the readable one before it or after it, across what cannot be read. */
function carriedOver(strip: Known, spans: readonly RhythmSpan[], at: number): RhythmSpan | null {
  const few = spans[at]!;
  if (few.ruling.kind !== 'cannot be told') return null;
  if (evidenceIn(strip, few.from, few.to).pulse === 'absent') return null;
  for (const step of [-1, 1]) {
    const beside = spans[at + 2 * step];
    if (spans[at + step]?.ruling.kind !== 'not readable' || beside?.ruling.kind !== 'named')
      continue;
    if (beside.ruling.finding.name === 'ventricular fibrillation') {
      const [still] = fibrillating(evidenceIn(strip, few.from, few.to));
      if (still) return { ...few, within: [], ruling: { kind: 'named', finding: still } };
    }
    const found = carriedOn(
      { ...beside, finding: beside.ruling.finding },
      few,
      strip.leads,
      strip.patient,
    );
    if (found) return { ...few, ruling: { kind: 'named', finding: found } };
  }
  return null;
}

interface Known extends Strip {
  readonly known: Map<string, Evidence>;
}

/** A stretch is weighed as a whole first, then perhaps again as a part: the evidence is kept. */
function evidenceIn(strip: Known, from: number, to: number): Evidence {
  const key = `${from} ${to}`;
  const evidence = strip.known.get(key) ?? evidenceOf(strip, from, to);
  strip.known.set(key, evidence);
  return evidence;
}

function unreadableSpan(strip: Known, { from, to, why }: Span): RhythmSpan {
  const reasonWhy = why === '' ? 'noise' : why;
  const span = { from, to, within: [], beats: [] };
  if (reasonWhy === 'flat line' && to - from >= LASTING) {
    return { ...span, ruling: idle(evidenceIn(strip, from, to)) };
  }
  return {
    ...span,
    ruling: {
      kind: 'not readable',
      why: reasonWhy,
      because: [reason('not readable', { why: reasonWhy, seconds: to - from })],
    },
  };
}

/** Asystole if other channels agree; else it may as well be a lead that came off, unless that shows P waves. */
function idle(evidence: Evidence): Ruling {
  const found = RULES.flatMap((rhythm) =>
    rhythm.names.includes('asystole') ? rhythm.find(evidence) : [],
  )[0];
  if (found) return { kind: 'named', finding: found };
  const lasting = evidence.to - evidence.from;
  const pAlone = evidence.clock.regular >= MARCH ? whereMayBePAlone(evidence) : [];
  const strength = evidence.activity()?.strength ?? 0;
  return {
    kind: 'cannot be told',
    possible:
      evidence.pulse === 'present'
        ? ['a lead that came off']
        : [...pAlone, 'asystole', ...(pAlone.length > 0 ? [] : ['a lead that came off' as const])],
    because: [
      reason('no QRS', { seconds: lasting, limit: LASTING }),
      reason('trace moves', { strength, limit: IDLE }),
      ...pulseReasons(evidence),
    ],
  };
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A gap this many usual intervals long, and `LASTING` s, is not a pause within a rhythm. Own choice. */
const BEATLESS = 4;

/** Own choice. */
const REST = 3;

/** Cuts where the trace turns restless, at long beatless gaps, around rows of beats that are no part of the rhythm beside them, where the pace jumps, and where P waves cease to lead or begin to. */
function stretches(strip: Known, span: Stretch): Stretch[] {
  const restless = restlessStretches(strip.leads, span.from, span.to, RESTLESS_FOR);
  const edges = [...restless.flatMap(({ from, to }) => [from, to]), ...pulselessEdges(strip)];
  return cutAt(span, edges).flatMap((part) =>
    restless.some(({ from, to }) => from <= part.from && part.to <= to)
      ? [part]
      : cutAt(part, [...beatlessEdges(strip, part)]).flatMap((piece) =>
          cutAt(piece, runEdges(strip, piece)).flatMap((row) =>
            cutAt(row, paceIn(strip, row)).flatMap((pace) =>
              cutAt(pace, ledIn(strip, pace)).flatMap((part) => cutAt(part, untoldIn(strip, part))),
            ),
          ),
        ),
  );
}

/** Fewer beats, or less time, without a pulse would leave nothing to tell a rhythm by. Own choice. */
const PULSELESS = { beats: 3, seconds: 3 };

/** Between the beats around each stretch in which the heart beats on without a pulse. */
function pulselessEdges({ beats, pulses }: Known): number[] {
  return pulses.flatMap(({ pulse, holds, from, to }) => {
    if (pulse !== 'absent' || holds !== 'throughout' || to - from < PULSELESS.seconds) return [];
    const first = beats.findIndex(({ time }) => time >= from);
    const after = beats.findIndex(({ time }) => time >= to);
    const end = after < 0 ? beats.length : after;
    if (first < 0 || end - first < PULSELESS.beats) return [];
    const between = (at: number): number[] =>
      at > 0 && at < beats.length ? [(beats[at - 1]!.time + beats[at]!.time) / 2] : [];
    return [...between(first), ...between(end)];
  });
}

function beatlessEdges(strip: Known, { from, to }: Stretch): number[] {
  const times: number[] = stretchOf(strip.beats, timeOf, from, to).map(timeOf);
  if (times.length === 0) return [];
  const usual = median(differences(times));
  const least = Math.max(LASTING, Number.isNaN(usual) ? 0 : BEATLESS * usual);
  const marks = [from, ...times, to];
  const edges: number[] = [];
  for (let i = 1; i < marks.length; i += 1) {
    if (!(marks[i]! - marks[i - 1]! < least)) addBeatless(i, marks, edges);
  }
  return edges;
}

const timeOf = ({ time }: BeatWaves): number => time;

/** A third of a second stays with the beat on either side: its own P, QRS and T. */
function addBeatless(i: number, marks: readonly number[], edges: number[]): void {
  if (i > 1) edges.push(marks[i - 1]! + 0.3);
  if (i + 1 < marks.length) edges.push(marks[i]! - 0.3);
}

function runEdges(strip: Known, { from, to }: Stretch): number[] {
  const { beats } = evidenceIn(strip, from, to);
  return foreignRows(beats).flatMap(({ members, at }) => {
    const before = beats[at - 1];
    const after = beats[at + members.length];
    // Fewer on either side would be no rhythm of their own: they stay with the run.
    return [
      ...(before && at >= REST ? [(before.time + members[0]!.time) / 2] : []),
      ...(after && beats.length - at - members.length >= REST
        ? [(members.at(-1)!.time + after.time) / 2]
        : []),
    ];
  });
}

function paceIn(strip: Known, { from, to }: Stretch): number[] {
  return paceEdges(evidenceIn(strip, from, to).beats, strip.patient);
}

function ledIn(strip: Known, { from, to }: Stretch): number[] {
  return ledEdges(evidenceIn(strip, from, to).beats, strip.patient);
}

function untoldIn(strip: Known, stretch: Stretch): number[] {
  const { beats } = evidenceIn(strip, stretch.from, stretch.to);
  return untoldEnds(beats, strip.quiet, stretch);
}

function cutAt({ from, to }: Stretch, cuts: readonly number[]): Stretch[] {
  const inner = cuts.filter((cut) => cut > from && cut < to).sort((a, b) => a - b);
  const edges = [from, ...inner, to];
  return edges.slice(1).map((edge, i) => ({ from: edges[i]!, to: edge }));
}

/** Halves with fewer beats would leave nothing to prove a rhythm by. */
const TO_HALVE = 24;

/** One stretch, or its halves where the whole has no name and a half has. */
function ruled(strip: Known, from: number, to: number): RhythmSpan[] {
  const whole = spanOf(evidenceIn(strip, from, to));
  if (whole.ruling.kind === 'named' || whole.beats.length < TO_HALVE) return [whole];
  const middle = whole.beats[Math.floor(whole.beats.length / 2)]!;
  const before = whole.beats[Math.floor(whole.beats.length / 2) - 1]!;
  const cut = (middle.time + before.time) / 2;
  // A half may show a row that is no part of it, which the whole did not.
  const halves = cutAt({ from, to }, [cut]).flatMap((half) =>
    cutAt(half, runEdges(strip, half)).flatMap((part) => ruled(strip, part.from, part.to)),
  );
  // Fewer beats hide a P from sight and prove nothing against it.
  if (mayHideP(evidenceIn(strip, from, to)) && halves.some(isNormal)) return [whole];
  if (!halves.some(({ ruling }) => ruling.kind === 'named')) return [whole];
  return joined(strip, halves);
}

/** Neighbours of one name are one span, where the whole of them bears that name too. */
function joined(strip: Known, spans: readonly RhythmSpan[]): RhythmSpan[] {
  const out: RhythmSpan[] = [];
  for (const span of spans) {
    const last = out.at(-1);
    const both =
      last && nameOf(last) === nameOf(span) ? spanOf(evidenceIn(strip, last.from, span.to)) : null;
    if (last && both && nameOf(both) === nameOf(last)) out[out.length - 1] = both;
    else out.push(span);
  }
  return out;
}

const isNormal = ({ ruling }: RhythmSpan): boolean =>
  ruling.kind === 'named' && NORMAL.some((name) => name === ruling.finding.name);

function nameOf({ ruling }: RhythmSpan): string {
  return ruling.kind === 'named' ? ruling.finding.name : ruling.kind;
}

function spanOf(evidence: Evidence): RhythmSpan {
  const { from, to, beats } = evidence;
  const span = { from: seconds(from), to: seconds(to) };
  if (evidence.countedTwice.length > 0 && !isReadFromTrace(evidence)) {
    return toldWithoutStrays(evidence) ?? countedTwiceSpan(evidence);
  }
  const ruling = rule(evidence);
  return {
    ...span,
    beats,
    within: isOfVentricles(ruling) ? [] : WITHIN.flatMap((rhythm) => rhythm.find(evidence)),
    ruling,
  };
}

/** Whether ventricles fibrillate or flutter: what was counted in that does not matter. */
const isReadFromTrace = (evidence: Evidence): boolean =>
  ventricularFibrillation.find(evidence).length > 0 || wavesAlone(evidence).length > 0;

const twiceReason = ({ countedTwice, beats }: Evidence) =>
  reason('counted twice', { count: countedTwice.length, beats: beats.length, limit: 0 });

function countedTwiceSpan(evidence: Evidence): RhythmSpan {
  const { from, to, beats, countedTwice } = evidence;
  return {
    from: seconds(from),
    to: seconds(to),
    beats: beats.map((beat, i) => (countedTwice.includes(i) ? unclassified(beat) : beat)),
    within: [],
    ruling: {
      kind: 'cannot be told',
      possible: [
        ...whereMayBePAlone(evidence),
        'T or P waves counted as beats',
        'premature beats on the T wave',
      ],
      because: [twiceReason(evidence)],
    },
  };
}

const unclassified = (beat: MarkedBeat): MarkedBeat => ({
  ...beat,
  kind: 'unclassified',
  confidence: 0,
});

/** What the beats tell without the few that may be none; null where these are more than strays, or the others bear no name. */
function toldWithoutStrays(evidence: Evidence): RhythmSpan | null {
  const rest = evidence.withoutStrays();
  if (!rest || rest.countedTwice.length > 0) return null;
  const told = spanOf(rest);
  if (told.ruling.kind !== 'named') return null;
  const { finding } = told.ruling;
  const kept = new Map(told.beats.map((beat) => [beat.time as number, beat]));
  return {
    ...told,
    beats: evidence.beats.map((beat) => kept.get(beat.time) ?? unclassified(beat)),
    ruling: {
      kind: 'named',
      finding: { ...finding, because: [...finding.because, twiceReason(evidence)] },
    },
  };
}

/** Where the ventricles rule nothing is premature. */
function isOfVentricles(ruling: Ruling): boolean {
  return ruling.kind === 'named' && VENTRICLES_RULE.some((name) => name === ruling.finding.name);
}

const VENTRICLES_RULE = [
  'idioventricular rhythm',
  'accelerated idioventricular rhythm',
  'ventricular tachycardia',
  'ventricular fibrillation',
  'asystole',
];

function rule(evidence: Evidence): Ruling {
  for (const rhythm of RULES) {
    const [found] = rhythm.find(evidence);
    if (found && found.confidence >= NAMED) return withoutAPulse(evidence, found);
  }
  if (evidence.beats.length === 0 && evidence.to - evidence.from >= LASTING) {
    const strength = evidence.activity()?.strength;
    if (strength !== undefined && strength <= IDLE) return idle(evidence);
  }
  const { unmet } = sinusProof(evidence);
  return {
    kind: 'cannot be told',
    possible: possibleOf(evidence),
    because: evidence.pulse === 'absent' ? [...pulseReasons(evidence), ...unmet] : unmet,
  };
}

function possibleOf(evidence: Evidence): Possible[] {
  const ofP = whereMayBePAlone(evidence);
  if (ofP.length > 0) return ofP;
  if (sinusProof(evidence).unmet.some(({ key }) => key === 'late tall T')) {
    return ['premature beats on the T wave'];
  }
  if (hideWave(evidence)) {
    return ['premature beats on the T wave', 'a second-degree atrioventricular block'];
  }
  return [...wideAtLeisure(evidence), ...whereAtriaAreUnseen(evidence)];
}

/** What a wide rhythm that is not fast may be where the atria cannot be seen to rest, or may lead to it. */
function wideAtLeisure(evidence: Evidence): Possible[] {
  const wide = wideRhythm(evidence);
  if (!wide || wide.rate > wide.range.high) return [];
  if (wide.rate < ESCAPE * wide.range.low) {
    return ['third-degree atrioventricular block', 'idioventricular rhythm'];
  }
  return evidence.waveBeforeQrs() ? ['a sinus rhythm', 'idioventricular rhythm'] : [];
}

/** Less sure than this is not named. Own choice. */
const NAMED = 0.4;

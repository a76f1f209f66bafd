import { seconds } from '../../units/brands.js';
import { prOf } from '../beats/leading-p.js';
import { median } from '../filter/spread.js';
import type { MarkedBeat, Patient } from '../marked-beat.js';
import { pulseOver } from '../pulse/pulse.js';
import { reason } from '../reason.js';
import { mayHideP } from './atria-unseen.js';
import { type Evidence, evidenceOf, type Strip } from './evidence/evidence.js';
import { laidTogether } from './evidence/laid-together.js';
import { EQUAL_PR } from './interval-limits.js';
import { type Finding, NORMAL } from './rhythm.js';
import type { RhythmSpan, Ruling } from './ruling.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Seconds of noise at most between two stretches that are weighed together. */
const NEAR = 6;
/** Seconds of strip that are weighed together. */
const REACH = 40;
/** Fewer beats in all tell no more than each stretch by itself. */
const LEAST = 6;
/** Sureness that is left. */
const LESS = 0.8;
/** Of the beats of one stretch, so many without the usual P at most, or this share. */
const WITHOUT_P = { count: 1, share: 0.15 };

/**
 * The same spans, those that are too short to tell anything by themselves under the name that all stretches
 * between the bursts of noise prove together, where none of them contradicts it. `rule` weighs evidence.
 */
export function acrossNoise(
  strip: Strip,
  spans: readonly RhythmSpan[],
  rule: (evidence: Evidence) => RhythmSpan,
): RhythmSpan[] {
  const out = [...spans];
  for (const group of groups(spans)) {
    if (!group.some((at) => isOpen(spans[at]!))) continue;
    for (const [at, span] of weighed(strip, spans, group, rule)) out[at] = span;
  }
  return out;
}

/** Places of readable spans that only short noise parts, two and more, not longer than `REACH`. */
function groups(spans: readonly RhythmSpan[]): number[][] {
  const out: number[][] = [];
  let group: number[] = [];
  const isNoise = (at: number): boolean => {
    const span = spans[at];
    return span?.ruling.kind === 'not readable' && span.to - span.from <= NEAR;
  };
  spans.forEach((span, at) => {
    if (span.ruling.kind === 'not readable') return;
    const goesOn =
      group.at(-1) === at - 2 && isNoise(at - 1) && span.to - spans[group[0]!]!.from <= REACH;
    if (!goesOn) {
      if (group.length > 1) out.push(group);
      group = [];
    }
    group.push(at);
  });
  if (group.length > 1) out.push(group);
  return out;
}

function weighed(
  strip: Strip,
  spans: readonly RhythmSpan[],
  group: readonly number[],
  rule: (evidence: Evidence) => RhythmSpan,
): [number, RhythmSpan][] {
  // A heart that beats without a pulse is no matter of its beats.
  if (group.some((at) => pulseOver(strip.pulses, spans[at]!.from, spans[at]!.to) === 'absent'))
    return [];
  const laid = laidTogether(
    strip,
    group.map((at) => spans[at]!),
  );
  if (!laid || laid.strip.beats.length < LEAST) return [];
  const evidence = evidenceOf(laid.strip, 0, laid.duration);
  const whole = rule(evidence);
  const hides = mayHideP(evidence);
  const told = group.flatMap((at, k): [number, RhythmSpan][] => {
    const span = spans[at]!;
    const part = laid.parts.indexOf(k);
    const range = laid.beatsOf[part];
    if (!range) return [];
    const beats = whole.beats.slice(...range);
    const ruling = rulingOf(whole, hides, span, beats, strip.patient, group.length);
    if (!ruling) return [];
    const events = eventsOf(whole, span, beats, laid.shifts[part]!);
    return [[at, { ...span, ruling, within: ruling.kind === 'named' ? events : span.within }]];
  });
  const named = group.flatMap((at) => nameOf(spans[at]!) ?? []);
  const name = nameOf(whole);
  const isAtOdds =
    name !== null && named.some((other) => other !== name && !areNormal(other, name));
  return isAtOdds ? [] : told;
}

/** The events of a stretch, and those of all of them together that lie in it and that it did not tell alone. */
function eventsOf(
  whole: RhythmSpan,
  span: RhythmSpan,
  beats: readonly MarkedBeat[],
  shift: number,
): Finding[] {
  const own = new Set(span.within.map(({ name }) => name));
  const here = new Set(beats.map(({ time }) => time));
  const others = whole.within.flatMap((event) => {
    const mine = event.beats.filter((time) => here.has(time)).map((time) => seconds(time - shift));
    if (own.has(event.name) || mine.length === 0) return [];
    return [{ ...event, from: span.from, to: span.to, beats: mine }];
  });
  return [...span.within, ...others];
}

/** What the stretches say together of one of them; null where that is no more than it said by itself. */
function rulingOf(
  whole: RhythmSpan,
  hides: boolean,
  span: RhythmSpan,
  beats: readonly MarkedBeat[],
  patient: Patient,
  count: number,
): Ruling | null {
  const { ruling } = whole;
  const own = nameOf(span);
  if (ruling.kind === 'named') {
    const { finding } = ruling;
    if (own !== null && (own === finding.name || !areNormal(own, finding.name))) return null;
    if (leadsByP(finding.name) && !followTheirP(beats, whole.beats, patient)) return null;
    return {
      kind: 'named',
      finding: {
        ...finding,
        from: span.from,
        to: span.to,
        confidence: LESS * finding.confidence,
        because: [...finding.because, reason('weighed together', { count })],
      },
    };
  }
  if (ruling.kind !== 'cannot be told') return null;
  const because = [...ruling.because, reason('weighed together', { count })];
  // A stretch by itself has too few beats to show such a P.
  if (hides && own !== null && isNormal(own)) return { ...ruling, because };
  if (span.ruling.kind !== 'cannot be told') return null;
  if (span.ruling.possible.length > 0 || ruling.possible.length === 0) return null;
  return { ...ruling, because };
}

const nameOf = ({ ruling }: RhythmSpan): string | null =>
  ruling.kind === 'named' ? ruling.finding.name : null;

/** Bears no name, or one of a sinus rhythm, which all of them together may tell better. */
const isOpen = (span: RhythmSpan): boolean =>
  span.ruling.kind === 'cannot be told' || isNormal(nameOf(span) ?? '');

const isNormal = (name: string): boolean => NORMAL.some((each) => each === name);

const areNormal = (one: string, other: string): boolean => isNormal(one) && isNormal(other);

const leadsByP = (name: string): boolean =>
  isNormal(name) || name === 'first-degree atrioventricular block';

/** Nearly each beat of the stretch after its P at the usual distance, most of them sinus beats. */
function followTheirP(
  beats: readonly MarkedBeat[],
  all: readonly MarkedBeat[],
  { species }: Patient,
): boolean {
  const pr = median(all.map(prOf).filter((value) => value !== null));
  const without = beats.filter((beat) => {
    const own = prOf(beat);
    return own === null || Math.abs(own - pr) > 2 * EQUAL_PR[species];
  }).length;
  const sinus = beats.filter(({ kind }) => kind === 'sinus').length;
  return (
    without <= Math.max(WITHOUT_P.count, WITHOUT_P.share * beats.length) &&
    2 * sinus >= beats.length
  );
}

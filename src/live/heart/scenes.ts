import { bloodAt, DELAYS } from './blood.js';
import { type ElectricalRecord, HELD_IN_NODE, phaseAt, STOP_SHOWN } from './phase.js';

/** A stretch of the strip in which there is one thing to say. */
export interface Scene {
  readonly from: number;
  readonly to: number;
  /** Its middle, where it is shown as a still. */
  readonly second: number;
}

/** Shorter ones are seams between waves, s. Not a clinical number. */
const SHORTEST = 0.002;

/** The strip from end to end as scenes. @param withBlood also parts where valves move */
export function scenesOf(record: ElectricalRecord, duration: number, withBlood: boolean): Scene[] {
  const edges = [...new Set([0, duration, ...edgesOf(record, withBlood)])]
    .filter((at) => at >= 0 && at <= duration)
    .sort((a, b) => a - b);
  const scenes: (Scene & { readonly says: string })[] = [];
  for (let i = 0; i + 1 < edges.length; i++) {
    const [from, to] = [edges[i] as number, edges[i + 1] as number];
    if (to - from < SHORTEST) continue;
    const second = (from + to) / 2;
    const { step, beat, wave } = phaseAt(record, second);
    const blood = withBlood ? bloodAt(record, second).step : '';
    const says = `${step} ${beat} ${wave?.onset} ${blood}`;
    const last = scenes.at(-1);
    if (last?.says === says) {
      scenes[scenes.length - 1] = { ...last, to, second: (last.from + to) / 2 };
    } else {
      scenes.push({ from, to, second, says });
    }
  }
  return scenes;
}

function edgesOf(
  { beats, loneP, rhythms, quality }: ElectricalRecord,
  withBlood: boolean,
): number[] {
  return [
    ...[...rhythms, ...quality.spans].flatMap(({ from, to }) => [from, to]),
    ...loneP.flatMap(({ onset, end }) => [onset, end, end + STOP_SHOWN]),
    ...beats.flatMap(({ p, qrs, t, time }) => [
      ...(p ? [p.onset, p.end] : []),
      ...(p && qrs ? [p.end + HELD_IN_NODE * (qrs.onset - p.end)] : []),
      ...(qrs ? [qrs.onset, qrs.end] : [time]),
      ...(t ? [t.onset, t.end] : []),
      ...(withBlood && p ? [p.onset + DELAYS.atriaContract] : []),
      ...(withBlood && qrs
        ? [qrs.onset + DELAYS.inflowShuts, qrs.onset + DELAYS.outflowOpens]
        : []),
      ...(withBlood && t ? [t.end + DELAYS.outflowShuts, t.end + DELAYS.inflowOpens] : []),
    ]),
  ];
}

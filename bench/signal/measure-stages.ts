import { beatsOn } from '../../src/signal/beats/detect.js';
import { shapeFamilies } from '../../src/signal/beats/families.js';
import { kindsOf } from '../../src/signal/beats/kinds.js';
import { findBreaths } from '../../src/signal/breath/find-breaths.js';
import { linkToBreath } from '../../src/signal/breath/link.js';
import { withoutHum } from '../../src/signal/filter/hum.js';
import { measure } from '../../src/signal/measures/measure.js';
import { readableLead } from '../../src/signal/quality/readable-lead.js';
import { beatRuns } from '../../src/signal/rate/beat-runs.js';
import { longEnough } from '../../src/signal/rate/long-enough.js';
import { rhythmSpans } from '../../src/signal/rhythm/spans.js';
import { findWaves } from '../../src/signal/waves/find-waves.js';
import { cpuOf } from '../fresh.js';
import { DOG, recording } from './recording.js';

/** CPU s of each stage; `node measure-stages.js <hours> <calls>` prints one for each call. */
export type StageCosts = Readonly<Record<string, number>>;

const [hours = 1, calls = 1] = process.argv.slice(2).map(Number);
const lead = recording(hours);
console.log(JSON.stringify(Array.from({ length: calls }, stages)));

/** The stages of `analyseStrip` for one lead, one after the other. */
function stages(): StageCosts {
  const costs: Record<string, number> = {};
  const timed = <T>(name: string, task: () => T): T => {
    const done: T[] = [];
    costs[name] = cpuOf(() => {
      done.push(task());
    });
    return done[0] as T;
  };
  const { patient } = DOG;
  const read = timed('quality', () => readableLead(lead));
  const found = timed('beats', () => beatsOn([read]));
  const clear = timed('hum', () => withoutHum(read.channel));
  const { beats, loneP } = timed('waves', () => findWaves([clear], found));
  const shapes = timed('shapes', () => shapeFamilies([clear], beats));
  const marked = timed('kinds', () => kindsOf(beats, shapes, loneP, patient));
  const breath = timed('breath', () =>
    linkToBreath(marked, findBreaths({ ecg: { lead: clear, beats } }), read.spans),
  );
  timed('rhythm', () =>
    rhythmSpans({
      leads: [clear],
      readable: read.spans,
      beats,
      shapes,
      marked,
      loneP,
      patient,
      breath: breath.verdict,
      pulses: [],
    }),
  );
  const times = beats.map(({ time }) => time);
  timed('rate', () => longEnough(beatRuns(times, read.spans)));
  timed('measures', () => measure(marked, [clear], patient));
  return costs;
}

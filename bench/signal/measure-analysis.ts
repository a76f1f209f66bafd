import { analyseStrip } from '../../src/signal/analyse.js';
import { cpuOf, peakMemory } from '../fresh.js';
import { DOG, recording } from './recording.js';

/** What `node measure-analysis.js <hours> <calls>` prints. */
export interface AnalysisCost {
  readonly beats: number;
  readonly named: readonly string[];
  /** CPU s of each call. */
  readonly cpu: readonly number[];
  /** MB, the recording included: of the process once it was made, and at its highest. */
  readonly memory: { readonly before: number; readonly peak: number };
}

const [hours = 1, calls = 1] = process.argv.slice(2).map(Number);
const lead = recording(hours);
const before = peakMemory();
let beats = 0;
let named: string[] = [];
const cpu = Array.from({ length: calls }, () =>
  cpuOf(() => {
    const analysis = analyseStrip([lead], DOG);
    beats = analysis.beats.length;
    named = analysis.rhythms.map(({ name }) => name);
  }),
);
const cost: AnalysisCost = { beats, named, cpu, memory: { before, peak: peakMemory() } };
console.log(JSON.stringify(cost));

import { cpuOf } from '../fresh.js';
import { naiveBeats } from './naive-detector.js';
import { RATE, recording } from './recording.js';

/** What `node measure-naive.js <hours>` prints. */
export interface NaiveCost {
  readonly beats: number;
  readonly cpu: number;
}

const [hours = 1] = process.argv.slice(2).map(Number);
const { samples } = recording(hours);
let beats = 0;
const cpu = cpuOf(() => {
  beats = naiveBeats(samples, RATE).length;
});
const cost: NaiveCost = { beats, cpu };
console.log(JSON.stringify(cost));

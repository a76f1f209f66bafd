import type { WrittenCase } from './case-schema.js';
import { ofTheClosure } from './contradictions/closure.js';
import { ofTheEnding } from './contradictions/ending.js';
import { ofHome } from './contradictions/home.js';
import { ofTheMonitor } from './contradictions/monitor.js';
import { ofThePatient } from './contradictions/patient.js';
import { ofPublishing } from './contradictions/publishing.js';
import { ofTimes } from './contradictions/times.js';
import { toldIn } from './contradictions/told.js';
import type { Problem } from './problem.js';
import type { Located } from './yaml-file.js';

/** Fields that are each well formed but cannot be true together. */
export function contradictions(record: Located<WrittenCase>): Problem[] {
  const problems: Problem[] = [];
  const told = toldIn(record, problems);
  for (const seek of [
    ofThePatient,
    ofTimes,
    ofTheEnding,
    ofTheMonitor,
    ofTheClosure,
    ofHome,
    ofPublishing,
  ]) {
    seek(told);
  }
  return problems;
}

import type { Outcome, Problem } from '../../src/record/problem.js';
import { randomOf } from './random.js';
import type { Subject } from './subjects.js';

// Bounds of the test: not clinical numbers.
const LONGEST_MS = 1000;
const MOST_MEMORY = 1e9;

/** What is wrong with how a reader took an input; null where it gave a value, or problems with their place. */
export async function faultOf(subject: Subject, seed: number): Promise<string | null> {
  let taken: { readonly outcome: Outcome<unknown>; readonly milliseconds: number };
  try {
    taken = await take(subject, seed);
    // Code that runs for the first time, on a machine under load, may take long once; a hang hangs again.
    if (taken.milliseconds > LONGEST_MS) taken = await take(subject, seed);
  } catch (error) {
    return `threw ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`;
  }
  const { outcome, milliseconds } = taken;
  if (milliseconds > LONGEST_MS) return `took ${Math.round(milliseconds)} ms of processor time`;
  const { rss } = process.memoryUsage();
  if (rss > MOST_MEMORY) return `left ${Math.round(rss / 1e6)} MB in use`;
  if (outcome.ok) return null;
  if (outcome.problems.length === 0) return 'refused without a problem';
  return outcome.problems.map(faultIn).find((fault) => fault !== null) ?? null;
}

async function take(subject: Subject, seed: number) {
  const begun = process.cpuUsage();
  const outcome = await subject.run(randomOf(seed));
  const { user, system } = process.cpuUsage(begun);
  return { outcome, milliseconds: (user + system) / 1000 };
}

/** A problem that would not help its reader. */
function faultIn(problem: Problem): string | null {
  const { file, line, column, found, expected, mend } = problem;
  const parts = { file, found, expected, mend };
  for (const [name, text] of Object.entries(parts)) {
    if (typeof text !== 'string' || text.trim() === '') return `has a problem without "${name}"`;
    if (
      /\bundefined\b|\[object |\bNaN\b(?!")/.test(text) &&
      !/"[^"]*(undefined|NaN|object)/.test(text)
    ) {
      return `says "${text}"`;
    }
    if (text.length > 2000) return `says ${text.length} characters of "${name}"`;
  }
  for (const place of [line, column]) {
    if (place !== undefined && !(Number.isInteger(place) && place >= 1))
      return `points at ${place}`;
  }
  return null;
}

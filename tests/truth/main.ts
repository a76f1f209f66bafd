import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { sayReasons } from '../../src/words/reason.js';
import { ENGLISH } from '../tools/english.js';
import { TRUE_NAMES } from './catalogue.js';
import { inShort, rerun, truthPage } from './page.js';
import { reportOn } from './report.js';
import { type Choice, grid, type Result, readStrip, resultOf } from './run.js';
import { LEAD_COUNTS, LEVELS, NOISES, SPECIES, type StripKey } from './strip.js';

/** The base of the published page; any other gives strips that were never looked at. */
export const BASE = 20260;
export const SEEDS = 4;

const USAGE = `npm run truth                    every strip; writes docs/truth.md and docs/truth.json
npm run truth -- [options]       with any of the choices below: prints each strip, writes nothing
  --rhythm NAME    ${TRUE_NAMES.map((name) => `'${name}'`).join(' ')}
  --species NAME   ${SPECIES.join(', ')}
  --noise NAME     ${NOISES.join(', ')}
  --level N        ${LEVELS.join(', ')} (0 is clean)
  --seed N         from 1
  --leads N        ${LEAD_COUNTS.join(', ')}
  --seeds N        how many of each; ${SEEDS}
  --base N         ${BASE} is published
  --only VERDICT   print strips that are right, both, open, withheld or wrong, or "unsafe" ones
  --dry            write nothing
  --workers N      threads; 1`;

if (isMainThread) await main();
else work(workerData as { keys: StripKey[]; base: number });

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      ...Object.fromEntries(
        [
          'rhythm',
          'species',
          'noise',
          'level',
          'seed',
          'leads',
          'seeds',
          'base',
          'workers',
          'only',
        ].map((name) => [name, { type: 'string' as const }]),
      ),
      dry: { type: 'boolean' },
      help: { type: 'boolean' },
    },
  });
  const given = values as Readonly<Record<string, string | undefined>>;
  if (values.help) {
    console.log(USAGE);
    return;
  }
  const choice = choiceOf(given);
  const base = whole(given.base, BASE);
  const seeds = whole(given.seeds, SEEDS);
  const keys = grid(seeds, choice);
  const started = performance.now();
  if (Object.keys(choice).length > 0) printed(keys, base, given.only);
  else await everything(keys, base, seeds, whole(given.workers, 1), values.dry === true);
  console.log(`${keys.length} strips, ${((performance.now() - started) / 1000).toFixed(1)} s`);
}

function choiceOf(given: Readonly<Record<string, string | undefined>>): Choice {
  const one = <T extends string | number>(
    name: string,
    all: readonly T[],
  ): { [key: string]: T } => {
    const text = given[name];
    if (text === undefined) return {};
    const found = all.find((each) => String(each) === text);
    if (found === undefined) stop(`--${name} is one of: ${all.join(', ')}`);
    return { [name]: found };
  };
  const seed = given.seed === undefined ? {} : { seed: whole(given.seed, 1) };
  return {
    ...one('rhythm', TRUE_NAMES),
    ...one('species', SPECIES),
    ...one('noise', NOISES),
    ...one('level', LEVELS),
    ...one('leads', LEAD_COUNTS),
    ...seed,
  };
}

function whole(text: string | undefined, otherwise: number): number {
  if (text === undefined) return otherwise;
  if (!/^\d{1,9}$/.test(text)) stop(`A whole number is expected, not ${text}`);
  return Number(text);
}

function stop(message: string): never {
  console.error(`${message}\n\n${USAGE}`);
  process.exit(2);
}

function printed(keys: readonly StripKey[], base: number, only: string | undefined): void {
  const results: Result[] = [];
  for (const key of keys) {
    const { result, analysis } = readStrip(key, base);
    results.push(result);
    const isUnsafe = result.miscounted || result.normal.length > 0;
    if (only && only !== result.verdict && !(only === 'unsafe' && isUnsafe)) continue;
    console.log(`\n${rerun(key, base)}`);
    console.log(
      `  ${result.verdict.toUpperCase()}: ${result.said}; rate drawn ${result.rate.toFixed(0)}, readable ${(100 * result.readable).toFixed(0)} %, beats found ${result.beats.found}, missed ${result.beats.missed}, extra ${result.beats.extra}${result.miscounted ? ', MISCOUNTED' : ''}`,
    );
    for (const { name, from, to, possible, because, within } of analysis.rhythms) {
      const mayBe = possible.map((what) => `possible: ${what}; `).join('');
      console.log(
        `  ${from.toFixed(1)}-${to.toFixed(1)} s ${name}: ${mayBe}${sayReasons(because, ENGLISH)}`,
      );
      for (const event of within)
        console.log(
          `    within: ${event.name} (${event.patterns.join(', ')}): ${sayReasons(event.because, ENGLISH)}`,
        );
    }
  }
  console.log(`\n${inShort(reportOn(results, { base, seeds: 0, engine: '' }))}`);
}

async function everything(
  keys: StripKey[],
  base: number,
  seeds: number,
  workers: number,
  isDry: boolean,
): Promise<void> {
  const results = workers > 1 ? await shared(keys, base, workers) : read(keys, base);
  const report = reportOn(results, { base, seeds, engine: engineDigest() });
  console.log(inShort(report));
  if (isDry) return;
  mkdirSync('docs', { recursive: true });
  writeFileSync('docs/truth.json', `${JSON.stringify(report, null, 1)}\n`);
  writeFileSync('docs/truth.md', truthPage(report));
}

function read(keys: readonly StripKey[], base: number): Result[] {
  return keys.map((key, i) => {
    if (i % 500 === 0 && isMainThread) console.error(`${i} of ${keys.length}`);
    return resultOf(key, base);
  });
}

/** Every worker takes each n-th strip, so that slow rhythms spread; the order is put back. */
async function shared(keys: readonly StripKey[], base: number, workers: number): Promise<Result[]> {
  const parts = await Promise.all(
    Array.from({ length: workers }, (_, part) => {
      const mine = keys.filter((_, i) => i % workers === part);
      const worker = new Worker(new URL(import.meta.url), { workerData: { keys: mine, base } });
      return new Promise<Result[]>((resolve, reject) => {
        worker.once('message', resolve);
        worker.once('error', reject);
      });
    }),
  );
  return keys.map((_, i) => parts[i % workers]![Math.floor(i / workers)]!);
}

function work({ keys, base }: { keys: StripKey[]; base: number }): void {
  parentPort?.postMessage(read(keys, base));
}

/** Which engine was measured: its sources, in order of their names. */
function engineDigest(): string {
  const hash = createHash('sha256');
  const files = readdirSync('src/signal', { recursive: true, encoding: 'utf8' });
  for (const file of files.filter((name) => name.endsWith('.ts')).sort()) {
    hash.update(`${file}\n`).update(readFileSync(`src/signal/${file}`));
  }
  return hash.digest('hex').slice(0, 12);
}

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import Eleventy from '@11ty/eleventy';
import type { Outcome } from '../../src/record/problem.js';

/** What `node measure-steps.js <cases> <others>` prints: ms of CPU one of the others takes, in one thread. */
export interface StepCosts {
  readonly cases: number;
  readonly read: number;
  readonly print: number;
  /** Of printing: what Eleventy takes. */
  readonly eleventy: number;
  readonly search: number;
}

const [first = '', second = ''] = process.argv.slice(2);
const root = fileURLToPath(new URL('../../..', import.meta.url));
const from = (file: string) => import(pathToFileURL(join(root, 'dist', file)).href);
const { disk } = (await from('publish/disk.js')) as typeof import('../../src/publish/disk.js');
const { openCollection } = (await from(
  'publish/collection.js',
)) as typeof import('../../src/publish/collection.js');
const { openStore } = (await from(
  'publish/store/store.js',
)) as typeof import('../../src/publish/store/store.js');
const { stepsHere } = (await from(
  'publish/steps/here.js',
)) as typeof import('../../src/publish/steps/here.js');
const { workbench } = (await from(
  'publish/steps/workbench.js',
)) as typeof import('../../src/publish/steps/workbench.js');
const { keyedHash } = (await from(
  'publish/pseudonym-key.js',
)) as typeof import('../../src/publish/pseudonym-key.js');
const { veilOf } = (await from('privacy/veil.js')) as typeof import('../../src/privacy/veil.js');
const { searchPublic } = (await from(
  'publish/steps/search-public.js',
)) as typeof import('../../src/publish/steps/search-public.js');

/** Eleventy's own CPU, s, as its only entrance is `write`. */
let eleventy = 0;
const { write } = Eleventy.prototype;
Eleventy.prototype.write = async function timed(this: InstanceType<typeof Eleventy>) {
  const before = cpu();
  const result = await write.call(this);
  eleventy += cpu() - before;
  return result;
};

const effects = disk(() => undefined);
/** Under a key that hides nothing: the cases are invented, and nothing of them is kept. */
const hash = keyedHash('00'.repeat(32));
let costs: StepCosts | undefined;
// The first cases warm up; the second are others, so that nothing is known of them.
for (const cases of [first, second]) {
  const collection = demanded(openCollection(cases, effects));
  const home = mkdtempSync(join(tmpdir(), 'thrice-bench-'));
  try {
    const store = demanded(openStore(join(home, 'store')));
    const bench = workbench(collection, undefined, store, effects);
    const steps = stepsHere(bench);
    const { folders } = collection;
    const begun = cpu();
    const surveys = (await steps.survey(folders)).flatMap((one) => (one.ok ? [one.value] : []));
    const read = cpu();
    eleventy = 0;
    const made = await steps.produce(
      surveys.map((one) => ({
        name: one.name,
        folder: folders.find((folder) => basename(folder) === one.name) as string,
        loaded: one.loaded,
        veil: {
          ...veilOf(one.name, hash),
          told: { breed: null, ageBand: null, sex: true },
        },
      })),
    );
    const printed = cpu();
    const produced = made.flatMap(({ outcome }) => (outcome.ok ? [outcome.value] : []));
    for (const { key, files } of produced) store.place(key, files, join(home, 'out'));
    const placed = cpu();
    await searchPublic(
      join(home, 'out', 'public'),
      produced,
      { identifiers: surveys.flatMap((one) => one.identifiers), withheld: [] },
      { steps, store },
    );
    const each = (seconds: number) => (1000 * seconds) / surveys.length;
    costs = {
      cases: surveys.length,
      read: each(read - begun),
      print: each(printed - read),
      eleventy: each(eleventy),
      search: each(cpu() - placed),
    };
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
}
console.log(JSON.stringify(costs));

function cpu(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

function demanded<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
}

import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { faultOf } from './judge.js';
import { SUBJECTS, type Subject } from './subjects.js';

// Sizes of the run: not clinical numbers.
const BATCH = 250;
const PATIENCE_MS = 30_000;

const HELP = `npm run fuzz -- [--inputs N] [--from SEED] [--only NAME]

Upsets the readers of files with N inputs in all (default: 100000), each made from a seed, and prints the
seed of each that crashed, hung or was refused without a place. Exit code 1 where there was one.`;

const { values } = parseArgs({
  options: {
    inputs: { type: 'string', default: '100000' },
    from: { type: 'string', default: '1000' },
    only: { type: 'string' },
    batch: { type: 'string' },
    help: { type: 'boolean' },
  },
});

if (values.help) console.log(HELP);
else if (values.batch !== undefined) await batch(values.batch, Number(values.from));
else process.exitCode = await all();

/** In a program of its own, so that a reader that never ends can be stopped. */
async function batch(name: string, from: number): Promise<void> {
  const subject = SUBJECTS.find((one) => one.name === name) as Subject;
  for (let seed = from; seed < from + BATCH; seed++) {
    process.send?.({ seed });
    const fault = await faultOf(subject, seed);
    if (fault !== null) process.send?.({ seed, fault });
  }
  process.exit();
}

async function all(): Promise<number> {
  const subjects = SUBJECTS.filter(({ name }) => values.only === undefined || name === values.only);
  const rounds = Math.ceil(Number(values.inputs) / subjects.length / BATCH);
  let faults = 0;
  for (const { name } of subjects) {
    const begun = performance.now();
    let found = 0;
    for (let round = 0; round < rounds; round++) {
      for (const fault of await run(name, Number(values.from) + round * BATCH)) {
        console.log(`${name}, ${fault}`);
        found++;
      }
    }
    const seconds = ((performance.now() - begun) / 1000).toFixed(0);
    console.log(`${name}: ${rounds * BATCH} inputs in ${seconds} s, ${found} faults`);
    faults += found;
  }
  return faults > 0 ? 1 : 0;
}

function run(name: string, from: number): Promise<string[]> {
  return new Promise((done) => {
    const faults: string[] = [];
    let last = from;
    const words = ['--batch', name, '--from', String(from)];
    const child = fork(fileURLToPath(import.meta.url), words, {
      execArgv: ['--max-old-space-size=900'],
    });
    let clock: NodeJS.Timeout;
    const wait = () => {
      clearTimeout(clock);
      clock = setTimeout(() => {
        faults.push(`seed ${last}: never ended`);
        child.kill('SIGKILL');
      }, PATIENCE_MS);
    };
    wait();
    child.on('message', (message: { seed: number; fault?: string }) => {
      wait();
      last = message.seed;
      if (message.fault !== undefined) faults.push(`seed ${last}: ${message.fault}`);
    });
    child.on('close', (code, signal) => {
      clearTimeout(clock);
      if (code !== 0 && signal !== 'SIGKILL')
        faults.push(`seed ${last}: ended with ${code ?? signal}`);
      done(faults);
    });
  });
}

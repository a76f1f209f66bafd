import { fileURLToPath, pathToFileURL } from 'node:url';

/** What `node measure-build.js <cases> <out> <threads>` prints of one build with the compiled program. */
export interface BuildCost {
  /** s */
  readonly wall: number;
  /** s of CPU, all threads */
  readonly cpu: number;
  /** MB */
  readonly peak: number;
  readonly printed: number;
}

const [cases = '', out = '', threads = '2'] = process.argv.slice(2);
const root = fileURLToPath(new URL('../../..', import.meta.url));
const { run } = (await import(
  pathToFileURL(`${root}dist/cli/run.js`).href
)) as typeof import('../../src/cli/run.js');

const lines: string[] = [];
const begun = performance.now();
const code = await run(['build', cases, '--out', out, '--threads', threads], {
  out: (line) => lines.push(line),
  err: (line) => lines.push(line),
  ask: async () => null,
  progress: null,
});
if (code !== 0) throw new Error(lines.join('\n'));
const { user, system } = process.cpuUsage();
const cost: BuildCost = {
  wall: (performance.now() - begun) / 1000,
  cpu: (user + system) / 1e6,
  peak: process.resourceUsage().maxRSS / 1024,
  printed: Number(/Printed anew +(\d+)/.exec(lines.join('\n'))?.[1]),
};
console.log(JSON.stringify(cost));

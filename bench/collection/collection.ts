import { execFileSync, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { inFreshProcess } from '../fresh.js';
import type { Row } from '../row.js';
import { makeCollection } from './make-collection.js';
import type { BuildCost } from './measure-build.js';
import type { StepCosts } from './measure-steps.js';

/** `THRICE_BENCH_CASES=1000 npm run bench -- collection` measures another number. */
const CASES = Number(process.env.THRICE_BENCH_CASES ?? 120);
/** So many are enough for the cost of one. */
const SAMPLE = 24;
const SHEETS = 12;

const patterns = fileURLToPath(new URL('../../../demo-data', import.meta.url));

export const collection: Row = {
  name: 'collection',
  title: `A collection of ${CASES} cases with a strip of one minute each, all documents`,
  lines: function* () {
    execFileSync('npm', ['run', '--silent', 'compile'], { stdio: 'ignore' });
    const home = mkdtempSync(join(tmpdir(), 'thrice-bench-'));
    const [cases, few, others, out] = ['cases', 'few', 'others', 'out'].map((name) =>
      join(home, name),
    ) as [string, string, string, string];
    try {
      makeCollection(patterns, cases, CASES);
      makeCollection(patterns, few, SAMPLE, 2);
      makeCollection(patterns, others, SAMPLE, 3);
      const threads = availableParallelism();
      const build = () =>
        inFreshProcess<BuildCost>(new URL('./measure-build.js', import.meta.url), [
          cases,
          out,
          threads,
        ]);
      const cold = build();
      yield `cold, ${threads} threads: ${told(cold)}; ${(CASES / cold.wall).toFixed(1)} cases/s, ${(1000 * (cold.cpu / CASES)).toFixed(0)} ms CPU a case; ${megabytes(out)} MB written`;
      yield `nothing changed: ${told(build())}`;
      const record = join(cases, 'cases', 'case-00007', 'case.yaml');
      const changed = (from: RegExp, to: string) => {
        const text = readFileSync(record, 'utf8');
        if (text.replace(from, to) === text) throw new Error(`${record} has nothing to change`);
        writeFileSync(record, text.replace(from, to));
        return told(build());
      };
      yield `one record changed: ${changed(/rest: \d+ days/, 'rest: 8 days')}`;
      // A name that no document was searched for.
      yield `one patient renamed: ${changed(/name: .*/, 'name: Zebulon')}`;
      const steps = inFreshProcess<StepCosts>(new URL('./measure-steps.js', import.meta.url), [
        few,
        others,
      ]);
      const ms = (cost: number) => `${cost.toFixed(0)} ms`;
      yield `CPU a case by step, one thread, warm (${steps.cases} cases): read and analyse ${ms(steps.read)}, print ${ms(steps.print)} (of it Eleventy ${ms(steps.eleventy)}), search for identifiers ${ms(steps.search)}`;
      const sheets = readdirSync(join(out, 'private'), { withFileTypes: true })
        .filter((entry) => entry.isDirectory() && entry.name !== 'assets')
        .slice(0, SHEETS)
        .map(({ name }) => join(out, 'private', name, 'discharge.html'));
      yield weasyPrint(sheets);
    } finally {
      rmSync(home, { recursive: true, force: true });
    }
  },
};

const told = ({ wall, cpu, peak, printed }: BuildCost): string =>
  `${wall.toFixed(1)} s, ${cpu.toFixed(1)} s CPU, ${peak.toFixed(0)} MB at the peak, ${printed} printed`;

const megabytes = (folder: string): number =>
  Math.round(
    readdirSync(folder, { withFileTypes: true, recursive: true })
      .filter((entry) => entry.isFile())
      .reduce((sum, entry) => sum + statSync(join(entry.parentPath, entry.name)).size, 0) / 1e6,
  );

/** The owners' sheets as pages, printed by another program that prints pages; its own start is left out. */
function weasyPrint(sheets: readonly string[]): string {
  const program = '/usr/bin/weasyprint';
  if (!existsSync(program)) return `not compared with WeasyPrint: there is no ${program}`;
  // The interpreter that the program asks for: another one may not have its library.
  const [, interpreter = 'python3'] = /^#!\s*(\S+)/.exec(readFileSync(program, 'utf8')) ?? [];
  const python = `
import sys, time
from weasyprint import HTML
HTML(sys.argv[1]).write_pdf()
begun = time.process_time()
for page in sys.argv[1:]:
    HTML(page).write_pdf()
print((time.process_time() - begun) / len(sys.argv[1:]))
`;
  const run = spawnSync(interpreter, ['-c', python, ...sheets], { encoding: 'utf8' });
  if (run.status !== 0) {
    return `not compared with WeasyPrint: it could not print the pages: ${run.stderr.trim().split('\n').at(-1)}`;
  }
  return `an owner's sheet printed by WeasyPrint from its page, warm: ${(1000 * Number(run.stdout)).toFixed(0)} ms CPU (by Chromium and by thrice: see "sheet")`;
}

import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { root } from '../cli/thrice.js';
import { DEMO } from '../publish/clinic.js';
import { hasProgram } from '../publish/programs.js';
import { type Fence, fencesOf, PAGES, tablesOf } from './markdown.js';
import { Room } from './room.js';

/**
 * Every block of commands in README, DEVELOPERS and docs is run, in the order of its page, in a folder of its own. What
 * a page shows beside a block is compared with what the commands say:
 *
 * - a `text` block holds lines of what was said, in order; `…` stands for lines left out, and a page's home folder is
 *   `/home/birch`; what is typed behind `>` is not looked at;
 * - a `text` block after a paragraph that ends in "`out/….html`, stands:" holds words of that page of the output;
 * - the command before a block that counts problems ends with exit code 1, any other with 0;
 * - any other block after a paragraph that ends in the name of a file is written into that file;
 * - a table "question | answer" is what somebody types in `thrice new`.
 */

/** Commands that are not run here, and why. Whether their scripts exist is looked at all the same. */
const NOT_RUN: readonly { readonly block: RegExp; readonly because: string }[] = [
  {
    block: /^npm ci && npm run build$/,
    because: 'it installs from the network and writes into the project; .ci/run runs it',
  },
  {
    block: /^npm ci && npm test$/,
    because: 'it would run this test within itself; .ci/run runs it',
  },
  {
    block: /^npm ci && npm run compile && npm link$/,
    because: 'it installs from the network and into the folder of all programs',
  },
  {
    block: /^(node dist\/cli\/main\.js|thrice) watch my-clinic$/,
    because: 'it serves until somebody ends it; tests/cli/watch.test.ts does',
  },
  {
    block: /^rsync .*web\.example/,
    because: 'it needs a web server; the same copy is made to a folder where rsync is installed',
  },
];

/** What is in a page's folder before its first command. */
const FURNISHED: Readonly<Record<string, (room: Room) => void>> = {
  'README.md': (room) => {
    room.clinic('my-clinic', 'juniper');
    room.write('strip.edf', readFileSync(join(DEMO, 'cases/juniper/strip.edf')));
    const sample = fencesOf('docs/clinics.md').find(({ kind }) => kind === 'csv');
    room.write('export.csv', (sample as Fence).text);
  },
  'docs/clinics.md': (room) => room.clinic('my-clinic', 'juniper'),
  'docs/many-machines.md': (room) => room.clinic('clinic', 'clover'),
};

/** Another program of that name is no stand-in. */
const hasGnuParallel = /^GNU parallel/.test(
  spawnSync('parallel', ['--version'], { encoding: 'utf8' }).stdout ?? '',
);

/** GNU parallel, where it is not installed: as much of it as the page uses. */
const PARALLEL = 'exec xargs -I{} "$@"';

/** Shares of an array that are made here in place of the many that a page asks for. */
const FEW = 2;

const answers = new Map(
  tablesOf('docs/authors.md').find(({ head }) => head === 'question | answer')?.pairs,
);

const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
  scripts: Record<string, string>;
};

describe.each(PAGES)('the commands of %s', { timeout: 180_000 }, (page) => {
  const fences = fencesOf(page);
  const shells = fences.filter(({ kind }) => kind === 'sh');
  if (shells.length === 0) {
    it('are none', () => expect(shells).toEqual([]));
    return;
  }
  const room = new Room();
  beforeAll(() => {
    FURNISHED[page]?.(room);
    if (!hasGnuParallel) room.program('parallel', PARALLEL);
  });
  afterAll(() => room.remove());

  let said = '';
  fences.forEach((fence, index) => {
    const title = `line ${fence.line}: ${fence.text.trim().split('\n').at(-1)}`;
    const excuse = NOT_RUN.find(({ block }) => block.test(fence.text.trim().split('\n')[0] ?? ''));
    const file = /`([^`\s]+\.\w+)`:$/.exec(fence.said)?.[1];
    const shown = /`(out\/\S+\.html)`, stands:$/.exec(fence.said)?.[1];
    if (fence.kind === 'sh' && excuse) {
      it(`${title} (not run: ${excuse.because})`, () => {
        for (const [, script] of fence.text.matchAll(/npm run (\w+)/g)) {
          expect(Object.keys(scripts)).toContain(script);
        }
      });
    } else if (fence.kind === 'sh') {
      // A page that shows problems shows a command that ends with them.
      const code = /^\d+ problems?\.$/m.test(fences[index + 1]?.text ?? '') ? 1 : 0;
      it(title, async () => {
        said = await run(fence, room, code);
      });
    } else if (fence.kind === 'text' && shown) {
      it(`line ${fence.line}: what stands on ${shown}`, () => {
        const words = wordsOf(room.read(shown));
        for (const line of fence.text.trim().split('\n')) expect(words).toContain(line);
      });
    } else if (fence.kind === 'text') {
      it(`line ${fence.line}: what the commands say`, () => {
        expect(missingLine(fence.text, said), `in\n${said}`).toBeNull();
      });
    } else if (file) {
      it(`line ${fence.line}: ${file} is written`, () => room.write(file, fence.text));
    } else if (fence.text.includes('completionMode: Indexed')) {
      it('the commands of the Indexed Job', () => runJob(fence.text, room));
    }
  });
});

/** Runs a block as its page means it, and gives what was said, with the page's home folder. */
async function run({ text }: Fence, room: Room, wanted: number): Promise<string> {
  const asking = /\bnew (\S+\/\S+)/.exec(text)?.[1];
  const input = asking ? await room.typed(asking, answers) : '';
  const array = /^#SBATCH --array=1-(\d+)$/m.exec(text);
  const tasks = array
    ? Array.from({ length: FEW }, (_, index) => ({
        SLURM_ARRAY_TASK_ID: String(index + 1),
        SLURM_ARRAY_TASK_COUNT: String(FEW),
      }))
    : [{}];
  let said = '';
  for (const variables of tasks) {
    const { code, shown } = room.run(text, {
      variables,
      input,
      // What is tested by the tests themselves runs in the project.
      folder: text.startsWith('npx vitest') ? root : room.folder,
    });
    said += shown;
    expect(code, shown).toBe(wanted);
  }
  return said.replaceAll(room.folder, '/home/birch');
}

/** Runs what each pod of an Indexed Job would run, with fewer pods and with folders of the room for its volumes. */
function runJob(text: string, room: Room): void {
  const { spec } = parse(text) as {
    spec: {
      completions: number;
      template: { spec: { containers: { args: [string]; command: string[] }[] } };
    };
  };
  const [container] = spec.template.spec.containers;
  expect(container?.command).toEqual(['sh', '-c']);
  const script = container?.args[0] ?? '';
  expect(script).toContain(`/${spec.completions}"`);
  for (let index = 0; index < FEW; index++) {
    const { code, shown } = room.run(
      script
        .replace(`/${spec.completions}"`, `/${FEW}"`)
        .replaceAll('/shares/', `${room.folder}/share-of-pod-`),
      { variables: { JOB_COMPLETION_INDEX: String(index) } },
    );
    expect(code, shown).toBe(0);
    expect(shown).toContain(`Share ${index + 1} of ${FEW}: `);
  }
}

/** The first line of a shown text that was not said where it should have been; null where all were. */
function missingLine(shown: string, said: string): string | null {
  const lines = said.split('\n').map((line) => line.trimEnd());
  let at = 0;
  let gap = true;
  for (const wanted of shown.trimEnd().split('\n')) {
    if (wanted === '…') {
      gap = true;
      continue;
    }
    const fits = (line: string | undefined) =>
      wanted.startsWith('> ') ? line === '>' : line === wanted.trimEnd();
    const found = gap ? lines.findIndex((line, index) => index >= at && fits(line)) : at;
    if (found < 0 || !fits(lines[found])) return wanted;
    at = found + 1;
    gap = false;
  }
  return null;
}

/** The words that a page shows. */
const wordsOf = (html: string): string =>
  html
    .replace(/<(script|style)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&#39;', "'")
    .replace(/\s+/g, ' ')
    .replace(/ (?=[.,;:])/g, '');

describe('the tables of commands', () => {
  it('name scripts that exist', () => {
    for (const page of PAGES) {
      const text = readFileSync(join(root, page), 'utf8');
      for (const [, script = ''] of text.matchAll(/npm run ([\w:]+)/g)) {
        expect(Object.keys(scripts), page).toContain(script);
      }
    }
  });
});

describe.runIf(hasProgram('rsync'))('the copy to a web server', () => {
  it('is made by commands that rsync understands', () => {
    const room = new Room();
    const block = fencesOf('docs/clinics.md').find(({ text }) => text.startsWith('rsync'));
    room.write('out/public/index.html', 'x');
    room.write('out/calendars/a.ics', 'x');
    const { code, shown } = room.run(
      `mkdir -p srv\n${(block as Fence).text.replaceAll('web.example:/srv', 'srv')}`,
    );
    expect(code, shown).toBe(0);
    expect(room.read('srv/cases/index.html')).toBe('x');
    room.remove();
  });
});

import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { inject } from 'vitest';
import { build } from '../src/publish/build.js';
import { disk } from '../src/publish/disk.js';
import { house } from '../src/publish/house.js';

const DEMO = join(house.root, 'demo-data');

/** The demo clinic as it is built, for tests that only look at it: whoever asks first builds it, the others wait. */
export const demoSite = (): Promise<string> => builtOnce('demo', () => DEMO);

/** The demo clinic as a clinic whose first language is Spanish, and which says no place for its pages, has it. */
export const spanishSite = (): Promise<string> =>
  builtOnce('spanish', (home) => {
    const folder = join(home, 'clinic');
    cpSync(DEMO, folder, { recursive: true });
    const file = join(folder, 'clinic.yaml');
    const text = readFileSync(file, 'utf8');
    const changed = text
      .replace('languages: [en, es]', 'languages: [es, en]')
      .replace(/^site:\n {2}at: .*\n {2}issued: .*\n/m, '');
    if (!changed.includes('[es, en]') || /^site:/m.test(changed)) {
      throw new Error('clinic.yaml is not what this test thinks');
    }
    writeFileSync(file, changed);
    for (const name of readdirSync(join(folder, 'cases'))) keepEnglish(join(folder, 'cases', name));
    return folder;
  });

/** The owners who are written to in English keep their language where the clinic's first is another. */
function keepEnglish(folder: string): void {
  const file = join(folder, 'case.yaml');
  const text = readFileSync(file, 'utf8');
  if (/^ {2}language: /m.test(text)) return;
  writeFileSync(file, text.replace(/^owner:\n/m, 'owner:\n  language: en\n'));
}

/** @param cases gives the folder of what is built; it may make it in the folder that it is given */
async function builtOnce(name: string, cases: (home: string) => string): Promise<string> {
  const home = join(inject('demoFolder'), name);
  const out = join(home, 'out');
  const [begun, ended] = [join(home, 'begun'), join(home, 'ended')];
  mkdirSync(home, { recursive: true });
  try {
    mkdirSync(begun);
  } catch {
    while (!existsSync(ended)) await setTimeout(100);
    return out;
  }
  const built = await build(
    { cases: cases(home), out, strict: true },
    disk(() => undefined),
  );
  writeFileSync(ended, '');
  if (!built.ok) throw new Error(JSON.stringify(built.problems, null, 2));
  return out;
}

import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { inject } from 'vitest';
import { build } from '../src/publish/build.js';
import { disk } from '../src/publish/disk.js';
import { house } from '../src/publish/house.js';

/** The demo clinic as it is built, for tests that only look at it: whoever asks first builds it, the others wait. */
export async function demoSite(): Promise<string> {
  const folder = inject('demoFolder');
  const out = join(folder, 'out');
  const [begun, ended] = [join(folder, 'begun'), join(folder, 'ended')];
  try {
    mkdirSync(begun);
  } catch {
    while (!existsSync(ended)) await setTimeout(100);
    return out;
  }
  const built = await build(
    { cases: join(house.root, 'demo-data'), out, strict: true },
    disk(() => undefined),
  );
  writeFileSync(ended, '');
  if (!built.ok) throw new Error(JSON.stringify(built.problems, null, 2));
  return out;
}

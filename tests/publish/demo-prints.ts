import { disk } from '../../src/publish/disk.js';
import { load } from '../../src/publish/load.js';
import { type PrintedDocument, printCase } from '../../src/publish/print-case.js';
import { demoVeil } from '../facts/demo.js';
import { DEMO } from './clinic.js';

/** Every document of the demo clinic as it is printed, with the handout that it is printed from. */
export async function demoPrints(): Promise<PrintedDocument[]> {
  const loaded = load(
    DEMO,
    disk(() => undefined),
  );
  if (!loaded.ok) throw new Error('the demo cannot be read');
  const { cases, content, clinic } = loaded.value;
  const all: PrintedDocument[] = [];
  for (const one of cases) {
    const printed = await printCase(one, content, clinic.languages[0] as string, demoVeil(one));
    if (!printed.ok) throw new Error(`${one.name} cannot be printed`);
    const { home, teaching, answers, record } = printed.value;
    const owner = home?.owner ?? null;
    all.push(...[owner, teaching, answers, record].filter((document) => document !== null));
  }
  return all;
}

import { fileURLToPath } from 'node:url';
import type { HomeCase } from '../../src/facts/case-facts.js';
import { ageBand } from '../../src/privacy/age-band.js';
import { AS_WRITTEN } from '../../src/privacy/passages.js';
import { type Veil, veilOf } from '../../src/privacy/veil.js';
import { disk } from '../../src/publish/disk.js';
import { load } from '../../src/publish/load.js';
import type { LoadedCase } from '../../src/publish/load-case.js';
import { keyedHash } from '../../src/publish/pseudonym-key.js';
import { accepted, atHome } from '../record/sample.js';

const read = accepted(
  load(
    fileURLToPath(new URL('../../demo-data', import.meta.url)),
    disk(() => {}),
  ),
);

/** A case of a patient that went home. */
export type HomeLoaded = LoadedCase & { readonly facts: HomeCase };

/** The demonstration clinic with its cases, read from the disk; all of its patients went home. */
export const demo = {
  ...read,
  cases: read.cases.map((one): HomeLoaded => ({ ...one, facts: atHome(one.facts) })),
};

/** A veil under no real key, where a test does not ask what it hides. */
export const OPEN_VEIL: Veil = {
  pseudonym: '0000000000000000',
  weeks: 5218,
  region: null,
  told: { breed: null, ageBand: '4 to 7', sex: true },
  say: AS_WRITTEN,
};

/** The veil of a case under the demonstration's own key. */
export const demoVeil = ({ facts }: LoadedCase): Veil => ({
  ...veilOf(
    facts.identity.record,
    keyedHash(demo.clinic.pseudonyms?.['demonstration key'] as string),
  ),
  region: demo.clinic.region ?? null,
  told: { breed: null, ageBand: ageBand(facts.patient.age.value), sex: true },
  say: AS_WRITTEN,
});

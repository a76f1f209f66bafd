import type { Identifier } from '../../src/privacy/identifiers.js';
import { type PublicFile, proofFor } from '../../src/privacy/proof.js';

/** The proof as the problems that it finds. */
export function problemsFor(identifiers: readonly Identifier[], ordinary: ReadonlySet<string>) {
  const findingsIn = proofFor(identifiers, ordinary);
  return (file: PublicFile) => findingsIn(file).map(({ problem }) => problem);
}

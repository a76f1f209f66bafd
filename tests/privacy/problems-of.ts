import type { Identifier } from '../../src/privacy/identifiers.js';
import { NO_OWN_TEXT } from '../../src/privacy/own-text.js';
import { type PublicFile, proofFor } from '../../src/privacy/proof.js';
import { soughtFrom } from '../../src/privacy/search/search.js';

/** The proof as the problems that it finds. */
export function problemsFor(identifiers: readonly Identifier[], own = NO_OWN_TEXT) {
  const findingsIn = proofFor(soughtFrom(identifiers), own);
  return (file: PublicFile) => findingsIn(file).map(({ problem }) => problem);
}

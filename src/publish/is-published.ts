import type { LoadedCase } from './load-case.js';

/** Whether anything of a case may be public. */
export const isPublished = ({ facts: { consent, published } }: LoadedCase): boolean =>
  published !== null && (consent.teaching.allows || consent.record.allows);

import type { WoundPlace } from '../record/vocabulary.js';

/** Procedures in the mouth, by their key in content/. Common practice. */
const IN_THE_MOUTH: ReadonlySet<string> = new Set(['tooth removal']);

/** Where the wound of a procedure is; the record may say otherwise. */
export const woundPlace = (procedure: string, stated?: WoundPlace): WoundPlace =>
  stated ?? (IN_THE_MOUTH.has(procedure) ? 'mouth' : 'skin');

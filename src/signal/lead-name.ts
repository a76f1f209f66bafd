import type { Channel } from './waveform.js';

/** Label without what files put around the name of a lead, in small letters: `ECG II`, `MLII` and `Lead II` are `ii`. */
export const plainLabel = (label: string): string =>
  label
    .trim()
    .replace(/^(ecg|ekg|lead|ml(?=i|v))[\s_-]*/i, '')
    .toLowerCase();

/** The first of the leads that bears a name such as `aVF`, however a file writes it. */
export const leadNamed = (leads: readonly Channel[], name: string): Channel | undefined =>
  leads.find(({ label }) => plainLabel(label) === name.toLowerCase());

/** Whether a lead is lead II, from the right foreleg to the left hindleg. */
export const isLeadII = (lead: Channel | undefined): boolean =>
  lead !== undefined && plainLabel(lead.label) === 'ii';

import type { Channel } from './waveform.js';

/** The leads in use by their names in the trade; V10 is the dorsal lead of small animals. Common practice. */
const LEADS: readonly string[] = [
  'I',
  'II',
  'III',
  'aVR',
  'aVL',
  'aVF',
  'V',
  ...Array.from({ length: 10 }, (_, index) => `V${index + 1}`),
];

/** What an ECG is called whose label names no lead: labels are free text, and may name a patient. */
export const UNNAMED_LEAD = 'ECG';

/** Label without what stands around the name of a lead, in small letters: `ECG II`, `MLII` and `II (2)` are `ii`. */
export const plainLabel = (label: string): string =>
  label
    .trim()
    .replace(/^(ecg|ekg|lead|ml(?=i|v))[\s_-]*/i, '')
    .replace(/\s*\(\d+\)$/, '')
    .toLowerCase();

/** `II` for a lead, however its file writes it (`MLII`, `ECG II`); null for anything else. */
export function leadName(label: string): string | null {
  const plain = plainLabel(label);
  return LEADS.find((lead) => lead.toLowerCase() === plain) ?? null;
}

/** The name of a lead as signal files write it (EDF+ standard texts, Kemp and Olivan 2003): `ECG II`. */
export const ecgText = (name: string): string =>
  name === UNNAMED_LEAD ? name : `${UNNAMED_LEAD} ${name}`;

/** The first of the leads that bears a name such as `aVF`, however a file writes it. */
export const leadNamed = (leads: readonly Channel[], name: string): Channel | undefined =>
  leads.find(({ label }) => leadName(label) === name);

/** Whether a lead is lead II, from the right foreleg to the left hindleg. */
export const isLeadII = (lead: Channel | undefined): boolean =>
  lead !== undefined && leadName(lead.label) === 'II';

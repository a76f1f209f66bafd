import { CONSENTS } from '../case-schema.js';
import type { Told } from './told.js';

/** Consent that is not complete, and what is published without it. */
export function ofPublishing({ value, add }: Told): void {
  const consents = CONSENTS.filter((kind) => value.consent[kind].given === 'yes');
  for (const kind of consents) {
    const consent = value.consent[kind];
    if (consent.by === undefined || consent.on === undefined) {
      add(
        'consent that is not complete',
        ['consent', kind, 'given'],
        'yes, without a name or a date',
        'who gave consent and when',
        'Add "by:" and "on:".',
      );
    }
  }
  for (const kind of CONSENTS) {
    const { given, on, withdrawn } = value.consent[kind];
    if (withdrawn === undefined) continue;
    if (given === 'no') {
      add(
        'a withdrawal without consent',
        ['consent', kind, 'withdrawn'],
        `${withdrawn}, of a consent that was not given`,
        'a withdrawal only of what was given',
        'Remove it, or write "given: yes" with who gave it and when.',
      );
    } else if (on !== undefined && withdrawn < on) {
      add(
        'moments out of order',
        ['consent', kind, 'withdrawn'],
        withdrawn,
        `a day not before consent was given on ${on}`,
        'Mend one of the two dates.',
      );
    }
  }
  const teaches =
    value.consent.teaching.given === 'yes' && value.consent.teaching.withdrawn === undefined;
  for (const [index, { on }] of value.photos.entries()) {
    if (teaches && on.includes('teaching page') && value.consent.photos.given === 'no') {
      add(
        'a photo without consent',
        ['photos', index, 'on'],
        'the teaching page, without consent to photos',
        'photos there only where the owner allows them',
        'Take "teaching page" out, or write under "consent" who allowed photos and when.',
      );
    }
  }
  for (const [index, { decision, because }] of value['public passages'].entries()) {
    if (decision === 'publish' && because === undefined) {
      add(
        'a decision without a reason',
        ['public passages', index, 'decision'],
        'publish, without a reason',
        'why the passage leads to nobody',
        'Add "because:".',
      );
    }
  }
  if (consents.length > 0 && value.published === undefined) {
    add(
      'a public case without its public words',
      ['published'],
      'nothing',
      'how the case appears in public, as consent is given',
      'Add "published:" with title, patient and address.',
    );
  }
}

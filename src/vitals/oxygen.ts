import type { Reading } from './channel.js';
import { episodesWhere, isLast, type LowEpisode } from './pressure.js';

/**
 * Oxygen saturation, in %, at and below which this tool speaks of too little oxygen. From memory, unverified: it goes with
 * some 60 mmHg of oxygen in arterial blood, below which saturation falls steeply.
 */
export const LOW_SATURATION = 90;

/** Minutes from the first to the last low reading that are no slip of a sensor any more. Own choice, not a clinical number. */
const MANY_MINUTES = 5;

/** Minutes before and after low readings in which a note may speak of them. Own choice, not a clinical number. */
const AROUND = 5;

/** What a note speaks of that tells why saturation was low, in English or Spanish: oxygen, airway, breath, color or sensor. */
const OF_OXYGEN =
  /oxygen|\bO2\b|SpO2|satur|hypox|cyano|\bblue\b|airway|\btubes?\b|intubat|breath|apn(?:o)?ea|ventilat|lungs?\b|probe|sensor|tongue|ox[ií]gen|hipox|cian[oó]|azul|v[ií]a a[eé]rea|\btubos?\b|intub|respir|apnea|pulm[oó]n|sonda|lengua/i;

/** Something that the record tells, in minutes since the start of anesthesia. */
interface Noted {
  readonly minute: number;
  readonly what: string;
  readonly note: string | null;
}

/** A stretch of low saturation, and what the record tells of it. */
export interface LowOxygen extends LowEpisode {
  /** Null where neither a note nor a death tells why. */
  readonly told: { readonly by: 'note' | 'death'; readonly minute: number } | null;
}

/**
 * The stretches of many minutes in which each reading of oxygen saturation was low, in order.
 * @param readings of the patient, in %
 * @param events of the record
 */
export const lowOxygen = (readings: readonly Reading[], events: readonly Noted[]): LowOxygen[] =>
  episodesWhere((value) => value <= LOW_SATURATION, readings)
    .filter(({ from, to }) => to - from >= MANY_MINUTES)
    .map((episode) => ({ ...episode, told: toldOf(episode, events) }));

function toldOf(episode: LowEpisode, events: readonly Noted[]): LowOxygen['told'] {
  const { from, to } = episode;
  const note = events.find(
    ({ minute, note: said }) =>
      minute >= from - AROUND && minute <= to + AROUND && said !== null && OF_OXYGEN.test(said),
  );
  if (note) return { by: 'note', minute: note.minute };
  const death = events.find(({ what }) => what === 'death');
  return death && isLast(episode) ? { by: 'death', minute: death.minute } : null;
}

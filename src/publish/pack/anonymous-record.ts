import type { PublicFacts } from '../../privacy/public-facts.js';
import type { CLINIC_ROUTES } from '../../record/vocabulary.js';
import { TOLD_PLACES } from '../../signal/told-beats.js';
import { allRounded } from '../../units/round.js';
import { type AnonymousRecord, RECORD_VERSION } from './record-schema.js';
import type { StripFiles } from './strip-files.js';

/**
 * The public facts as one object of data, times and rates as exact as the page tells them: sixteen digits would promise
 * what no monitor measures, and in so many of them stands any date by chance.
 * @param strips one for each strip of the facts, with the name that its files have
 */
export function anonymousRecord(
  facts: PublicFacts,
  strips: readonly { readonly name: string; readonly files: StripFiles }[],
  checked: boolean,
): AnonymousRecord {
  const { patient, anesthesia, vitals, shifted } = facts;
  const { ageBand, breed, neutered, sex, species, roundedWeight } = patient;
  return allRounded(
    {
      format: 'thrice anesthesia record',
      version: RECORD_VERSION,
      checked,
      case: facts.pseudonym,
      called: facts.published.patient,
      patient: { species, breed, sex, neutered, ageBand, weight: roundedWeight },
      procedure: facts.procedure,
      region: facts.region,
      dates: { shifted: true, ...shifted },
      anesthesia: {
        minutes: anesthesia.minutes,
        surgeryMinutes: facts.surgeryMinutes,
        breathing: anesthesia.breathing,
        ventilatorRate: anesthesia.ventilatorRate,
        maintenance: anesthesia.maintenance,
        drugs: anesthesia.drugs.map(({ drug, route, minute, perKilogram }) => ({
          drug,
          route: route as (typeof CLINIC_ROUTES)[number],
          minute,
          perKilogram,
        })),
        events: [...anesthesia.events],
      },
      vitals: {
        file: 'vitals.csv',
        channels: vitals.channels.map(({ channel, unit, patient: own, apart }) => ({
          channel,
          unit,
          computed: own.some(({ computed }) => computed),
          readings: own.map(({ minute, value, computed }) => ({
            minute,
            value,
            ...(computed && { computed }),
          })),
          notThePatient: apart.map(({ minute, value, why }) => ({ minute, value, why })),
        })),
        lowPressure: vitals.lowPressure.value && {
          limit: vitals.lowPressure.value.limit,
          episodes: vitals.lowPressure.value.episodes.map(({ from, to, after, lowest }) => ({
            from,
            to: after ?? to,
            ended: after !== null,
            lowest: { minute: lowest.minute, value: lowest.value },
          })),
        },
      },
      strips: facts.strips.map(({ begins, analysis }, index) => {
        const { name, files } = strips[index] as (typeof strips)[number];
        return {
          lead: files.channels[0] as string,
          files: {
            edf: files.edf && `${name}.edf`,
            edfLeavesOut: files.cut,
            wfdb: `${name}.hea`,
          },
          channels: [...files.channels],
          begins: begins.value,
          duration: analysis.duration,
          samplingRate: analysis.samplingRate,
          readable: analysis.quality.readable,
          beats: analysis.beats.map(({ time, kind }) => ({ time, kind })),
          rate: analysis.rate && {
            mean: analysis.rate.mean,
            shortest: analysis.rate.shortest,
            longest: analysis.rate.longest,
          },
          rhythms: analysis.rhythms.map(({ name: rhythm, from, to, confidence }) => ({
            name: rhythm,
            from,
            to,
            confidence,
          })),
        };
      }),
    },
    TOLD_PLACES,
  );
}

import { apart, type Form } from './form.js';

const STREETS =
  'Street|St|Lane|Ln|Road|Rd|Avenue|Ave|Row|Drive|Dr|Court|Ct|Way|Square|Boulevard|Blvd|Terrace|Place';
/** Ends of addresses of the web that are no words after a forgotten space. */
const DOMAINS = 'com|org|net|edu|gov|info|app|vet|example|uk|ca|au|mx|ar|cl|fr|eu';

/** Where somebody lives, or is reached by a machine. A count in it is not a clinical number. */
export const OF_ADDRESSES: readonly Form[] = [
  [
    'an e-mail address',
    /(?<![\p{L}\p{N}._%+-])[\p{L}\p{N}._%+-]+@[\p{L}\p{N}-]+(?:\.[\p{L}\p{N}-]+)+/gu,
  ],
  ['a web address', /(?<![\p{L}\p{N}])(?:[a-z][a-z\d+.-]{0,20}:\/\/|www\.|mailto:|tel:)\S+/giu],
  ['a web address', apart(`(?:[\\p{L}\\p{N}-]{1,63}\\.){1,6}(?:${DOMAINS})(?:/\\S*)?`, 'giu')],
  ['a network address', /(?<![\d.])\d{1,3}(?:\.\d{1,3}){3}(?![\d.])/gu],
  [
    'a network address',
    /(?<![\p{L}\p{N}:])(?:(?:[\da-f]{1,4}:){4,7}[\da-f]{1,4}|(?:[\da-f]{1,4}:){1,6}(?::[\da-f]{1,4}){1,6}|(?:[\da-f]{2}-){5}[\da-f]{2})(?![\p{L}\p{N}:])/giu,
  ],
  ['a name on a network', /(?<![\p{L}\p{N}._%+-])@[\p{L}\p{N}_.]{2,}/gu],
  [
    'a place on the map',
    /(?<![\d.])-?\d{1,3}\.\d{3,},\s*-?\d{1,3}\.\d{3,}|\d{1,3}\s?°\s?\d{1,2}\s?['’′]/gu,
  ],
  [
    'an address',
    new RegExp(
      `(?<!\\d)\\d{1,5}\\s+(?:\\p{Lu}[\\p{L}'’-]+\\s+){1,3}(?:${STREETS})(?!\\p{L})`,
      'gu',
    ),
  ],
  [
    'an address',
    /(?<!\p{L})(?:Calle|Avenida|Avda\.?|Plaza|Paseo|Camino|Carretera)\s+(?:de\s+|del\s+|la\s+)*\p{Lu}\p{L}+/gu,
  ],
];

import { apart, type Form } from './form.js';

/** A code with three digits or more, as numbers of things have. The count is no clinical number. */
const CODE = '(?:\\p{L}{1,4}\\s)?(?=[\\p{L}./-]*(?:\\d[\\p{L}./ -]?){3})[\\p{L}\\d][\\p{L}\\d./-]*';
const CALLED = '(?:\\s+(?:is|was|read|reads|es|era))?\\s*[:#]?\\s*';
const NUMBER = '(?:number|no\\.?|nr\\.?|id|code|número|nº|n\\.º|núm\\.?)';

/** Things that have a number of their own, whatever is said of them. */
const NUMBERED =
  `serial|batch|account|policy|insurance|certificate|licen[cs]e|passport|invoice|registration|tattoo|chip|microchip|
  IMEI|S/N|serie|cuenta|póliza|poliza|colegiado|colegiada|factura|pasaporte|tatuaje|crotal|DNI|NIE|NIF|CIF|
  NHC`.replace(/\s+/g, '');
/** Things of which a number may be said that is not theirs: "in this case 120 mL". */
const COUNTED =
  'lot|claim|member|membership|record|case|chart|file|patient|client|tag|device|unit|lote|seguro|expediente|historia|ficha|caso|paciente|cliente';

/**
 * Plates differ from country to country: letters and digits in groups, here wherever one is spoken of, and two forms that
 * hardly anything else has (common practice). A bone plate has no such code beside it.
 */
const PLATE =
  '(?:\\d{1,4}[ -]?\\p{Lu}{1,3}(?:[ -]?\\d{2,4})?|\\p{Lu}{1,3}[ -]?\\d{2,4}(?:[ -]?\\p{Lu}{1,3})?)';
const A_PLATE =
  '(?:(?:[Nn]umber|[Ll]icen[cs]e|[Rr]egistration)\\s+)?[Pp]lates?|[Rr]egistration|[Mm]atr[ií]cula|[Pp]laca';
const SOME_WORDS = '[^\\p{L}\\p{N}]{1,3}(?:\\p{L}{1,12}[^\\p{L}\\p{N}]{1,2}){0,4}?';

/** Numbers of people, animals and things. A count of digits in them is not a clinical number. */
export const OF_NUMBERS: readonly Form[] = [
  ['a number of 15 digits, as microchips have', /(?<!\d)\d(?:[ -]?\d){14}(?!\d)/gu],
  [
    'a number plate',
    apart(`(?:${A_PLATE})${SOME_WORDS}${PLATE}|${PLATE}${SOME_WORDS}(?:${A_PLATE})`),
  ],
  ['a number plate', apart('[Nn]umber plates?|[Ll]icen[cs]e plates?|[Mm]atr[ií]culas?')],
  [
    'a number plate',
    /(?<![\p{L}\p{N}])(?:[A-Z]{2}\d{2} [A-Z]{3}|\d{4}[ -](?!RPM|BPM|PPM)[B-DF-HJ-NP-TV-Z]{3})(?![\p{L}\p{N}])/gu,
  ],
  [
    "a vehicle's number",
    /(?<![\p{L}\p{N}])(?=[A-Z]*\d)(?=\d*[A-Z])[A-HJ-NPR-Z\d]{17}(?![\p{L}\p{N}])/gu,
  ],
  [
    'a bank account',
    /(?<![\p{L}\p{N}])[A-Z]{2}\d{2}(?: ?[A-Z\d]{4}){3,7}(?: ?[A-Z\d]{1,3})?(?![\p{L}\p{N}])/gu,
  ],
  [
    'a number of a person or a thing',
    apart(`(?:${NUMBERED})(?:\\s+${NUMBER})?${CALLED}${CODE}`, 'giu'),
  ],
  [
    'a number of a person or a thing',
    apart(`(?:${COUNTED})(?:\\s+${NUMBER}${CALLED}|\\s*[:#]\\s*)${CODE}`, 'giu'),
  ],
  [
    'a code of letters and digits',
    /(?<![\p{L}\p{N}-])(?!(?:IEC|ISO|EN|RFC)-?\d)(?=[\d-]*[A-Z])(?=(?:[A-Z-]*\d){3})[A-Z\d]+(?:-[A-Z\d]+)*(?![\p{L}\p{N}])/gu,
  ],
  [
    'a postcode',
    /(?<![\p{L}\p{N}])(?:[A-Z]{1,2}\d[A-Z\d]? \d[A-Z]{2}|[A-Z]\d[A-Z] ?\d[A-Z]\d)(?![\p{L}\p{N}])/gu,
  ],
  [
    'a telephone number',
    // Its first sign is looked at before what stands before it, as most places of a text hold no digit.
    /(?=[+\d])(?<![\d.,])(?<!(?:IEC|ISO|EN|RFC) )\+?\d(?:[ ().-]{0,2}\d){6,}(?!\d)/gu,
  ],
  [
    'a number of five or six digits, as postcodes have',
    /(?<![\p{L}\d.,-])(?<!(?:IEC|ISO|EN|RFC) )\d{5,6}(?![\p{L}\d]|[.,]\d)/gu,
  ],
];

import { apart, type Form } from './form.js';

const ENGLISH =
  'January|February|March|April|May|June|July|August|September|October|November|December';
/** In capitals, too; in small letters "may 3" is no date. */
const MONTHS = `${ENGLISH}|${ENGLISH.toUpperCase()}`;
const SHORT = 'Jan|Feb|Mar|Apr|Jun|Jul|Aug|Sept?|Oct|Nov|Dec';
const MESES =
  'enero|febrero|marzo|abril|mayo|junio|julio|agosto|septiembre|setiembre|octubre|noviembre|diciembre';
/** Two of the months are words as well. */
const NO_WORDS = MONTHS.replace(/\b(?:March|May|MARCH|MAY)\|/g, '');
const OF = 'in|of|since|until|till|by|before|after|last|this|next|every|early|late|mid';
const DE = 'en|de|del|desde|hasta|este|pasado|próximo|cada|durante|antes de|después de';

/** Days that have a name. Each falls on one day or another of every year, and the day of the week is told. */
const HOLIDAYS =
  `Christmas|Xmas|Thanksgiving|Easter|Hallowe['’]?en|New Year(?:['’]?s)?|Valentine(?:['’]?s)?|Boxing Day|Good
  Friday|Fourth of July|Juneteenth|bank holiday|public holiday|Ramadan|Eid|Hanukkah|Passover|Diwali|Yom Kippur|Rosh
  Hashanah|Lent|Mardi Gras|Navidad|Nochebuena|Nochevieja|Año Nuevo|Día de Reyes|Reyes Magos|Semana Santa|Pascua|Viernes
  Santo|Jueves Santo|Carnaval|Día de \\p{Lu}?\\p{L}*\\s?\\p{Lu}\\p{L}+|día festivo|\\p{Lu}\\p{L}+(?:['’]s?)? Day`.replace(
    /\s+/g,
    ' ',
  );

const date = (source: string, flags?: string): Form => ['a date', apart(source, flags)];

/** Ways to write a day or a month. A count in it is not a clinical number. */
export const OF_DAYS: readonly Form[] = [
  ['a date', /(?<!\d)\d{4}([-/.])\d{1,2}\1\d{1,2}(?!\d)/gu],
  // Day and month need two digits somewhere, so that "1/2 tablet" is none.
  ['a date', /(?<![\d./])\d{1,2}[/.]\d{1,2}[/.](?:\d{4}|\d{2})(?![\d/])/gu],
  ['a date', /(?<![\d./-])(?:[0-2]?\d|3[01])-(?:[0-2]?\d|3[01])-(?:\d{4}|\d{2})(?![\d/-])/gu],
  ['a date', /(?<![\d./])(?:[0-2]?\d|3[01])\/(?:0[1-9]|1[0-2])(?![\d/])/gu],
  ['a date', /(?<![\d./])(?:0?[1-9]|1[0-2])\/(?:19|20)\d\d(?![\d/])/gu],
  date(
    `\\d{1,2}(?:st|nd|rd|th)?[\\s-]+(?:of\\s+)?(?:${MONTHS})|(?:${MONTHS})\\s+\\d{1,4}(?:st|nd|rd|th)?`,
  ),
  date(
    `\\d{1,2}(?:st|nd|rd|th)?[\\s-]+(?:${SHORT}|${SHORT.toUpperCase()})|(?:${SHORT})\\.?\\s+\\d{1,4}(?:st|nd|rd|th)?`,
  ),
  date(`\\d{1,2}\\s+(?:de\\s+)?(?:${MESES})|(?:${MESES})\\s+del?\\s+\\d{4}`, 'giu'),
  ['a month', apart(`${NO_WORDS}|(?:${OF})[\\s-]+(?:March|May)`)],
  ['a month', apart(`(?:${DE})\\s+(?:${MESES})`, 'giu')],
  ['a holiday, which tells the day', apart(`(?:${HOLIDAYS})(?:\\s(?:Eve|Day|Monday))?`)],
];

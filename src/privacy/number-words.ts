const list = (words: string): readonly string[] => words.split(' ');

/** Numbers from 1 to 20, in words. */
export const ENGLISH = list(
  'one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty',
);
/** The same in Spanish. */
export const SPANISH = list(
  'un dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis diecisiete dieciocho diecinueve veinte',
);

const TENS = 'twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety';
const DECENAS = 'veinte|treinta|cuarenta|cincuenta|sesenta|setenta|ochenta|noventa';
const digits = (words: readonly string[]) => words.slice(0, 9).join('|');

/** One digit in words, zero among them. */
export const DIGIT_WORD = `(?:zero|oh|cero|uno|${digits(ENGLISH)}|${digits(SPANISH)})`;

/** A number in words, with its half: "thirty-five", "eight and a half", "treinta y cinco", "ocho y medio". */
export const NUMBER_WORDS = [
  `(?:(?:${TENS})[\\s-](?:${digits(ENGLISH)})|${[...ENGLISH].reverse().join('|')}|${TENS}|(?:one|a) hundred)`,
  `(?:\\s+and\\s+a\\s+(?:half|quarter))?`,
  `|(?:(?:${DECENAS})\\s+y\\s+(?:uno|una|${digits(SPANISH)})|veinti\\p{L}+|${[...SPANISH].reverse().join('|')}|una|${DECENAS}|cien)`,
  `(?:\\s+y\\s+medi[oa])?`,
].join('');

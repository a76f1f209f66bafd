import { unitOf } from '../quantity.js';

/** How monitors write "per minute" in English, Spanish, German and French. Common practice. */
const PER_MINUTE =
  /^(1|beats|breaths|lat(idos)?|resp|schl[aä]ge|batt?|puls(os)?)?\/ ?min(ute)?$|^min-1$|^(b|l|r|br|p)pm$/i;

/** The unit that a word of a table means, among those accepted; undefined where it means none of them. */
export function spelledUnit(word: string, units: readonly string[]): string | undefined {
  const plain = word.replace(/[º˚]/g, '°').replace('⁻¹', '-1');
  if (units.includes('/min') && PER_MINUTE.test(plain)) return '/min';
  if (units.includes('C') && /^(° ?)?c(elsius)?$/i.test(plain)) return 'C';
  if (units.includes('F') && /^(° ?)?f(ahrenheit)?$/i.test(plain)) return 'F';
  if (units.includes('%') && /^vol\.?-? ?%$/i.test(plain)) return '%';
  return unitOf(plain, units) ?? units.find((one) => one.toLowerCase() === plain.toLowerCase());
}

/** A person, an animal and what belongs to them, all made up by a seed. */
export interface Identity {
  readonly patient: string;
  readonly owner: string;
  readonly phone: string;
  readonly email: string;
  readonly address: string;
  readonly chip: string;
  readonly born: string;
  readonly record: string;
}

const ONSETS = 'B Br C Ch D F G Gr H J K L M N P Q R S St T Tr V W Z'.split(' ');
const VOWELS = ['a', 'e', 'i', 'o', 'u', 'ei', 'ou'];
const MARKED = ['á', 'é', 'í', 'ó', 'ú', 'ü', 'ñe', 'ö', 'ç'];
const ENDS = ['ndrik', 'vbert', 'lquist', 'rmoth', 'zzelin', 'xwell', 'kkonen', 'dsworth'];
const OTHER_SCRIPTS = [
  'Жозефина Квик',
  'Ωρίων Ζαφείρης',
  '渡辺千代子',
  'מרגלית שפירא',
  'ზურაბ კვირია',
];

/** Identities from a seed (a linear congruential generator: Numerical Recipes, 2nd edition, 7.1). */
export function identitiesFrom(seed: number, count: number): Identity[] {
  let state = seed;
  const next = (below: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
  const one = <T>(list: readonly T[]): T => list[next(list.length)] as T;
  const digits = (length: number) => Array.from({ length }, () => next(10)).join('');
  const syllable = (marked: boolean) => `${one(ONSETS)}${one(marked ? MARKED : VOWELS)}`;
  const name = (form: number): string => {
    const word = `${syllable(form === 0)}${syllable(false).toLowerCase()}${one(ENDS)}`;
    if (form === 1) return `O'${word}`;
    return form === 2 ? `${word}-${syllable(false)}${one(ENDS)}` : word;
  };
  return Array.from({ length: count }, (_, i) => {
    const family = name(i % 4);
    return {
      patient: name(3),
      owner: i % 10 === 9 ? one(OTHER_SCRIPTS) : `${name(0)} ${family}`,
      phone: one([
        `555 ${digits(4)}`,
        `+1 (${200 + next(700)}) 555-${digits(4)}`,
        `+34 6${digits(2)} ${digits(3)} ${digits(3)}`,
      ]),
      email: `${family.replace(/[^A-Za-z]/g, '').toLowerCase()}.${i}@${name(3).toLowerCase()}.example`,
      address: `${1 + next(200)} ${name(3)} Terrace`,
      chip: `999${digits(12)}`,
      born: `${2005 + next(18)}-${String(1 + next(12)).padStart(2, '0')}-${String(1 + next(28)).padStart(2, '0')}`,
      record: `${String.fromCharCode(65 + next(26))}${String.fromCharCode(65 + next(26))}-${digits(6)}`,
    };
  });
}

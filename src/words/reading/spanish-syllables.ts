/**
 * Syllables of a Spanish word, by the rules of its spelling (Real Academia Española, Ortografía de la lengua española
 * 2010, diphthong and hiatus): two open vowels, an open one beside a closed one that bears the accent mark, and two equal
 * vowels stand in two syllables; all other neighbours share one. An h between vowels changes nothing.
 */
export function spanishSyllables(word: string): number {
  const sounded = word
    .normalize('NFC')
    .toLowerCase()
    // The u of que, qui, gue, gui is silent; that of güe, güi is not.
    .replace(/([qg])u(?=[eéií])/g, '$1')
    .replace(/(?<=[aeiouáéíóúü])h(?=[aeiouáéíóúü])/g, '')
    .replace(/y(?![aeiouáéíóú])/g, 'i');
  const runs = sounded.match(/[aeiouáéíóúü]+/g) ?? [];
  const count = runs.reduce((sum, run) => sum + syllablesIn(run), 0);
  return Math.max(1, count);
}

function syllablesIn(run: string): number {
  const vowels = [...run];
  return vowels.filter(
    (vowel, index) => index === 0 || isHiatus(vowels[index - 1] as string, vowel),
  ).length;
}

const OPEN = 'aeoáéó';
const CLOSED_WITH_ACCENT = 'íú';

function isHiatus(one: string, other: string): boolean {
  const open = [one, other].filter((vowel) => OPEN.includes(vowel)).length;
  if (open === 2) return true;
  if (open === 1) return [one, other].some((vowel) => CLOSED_WITH_ACCENT.includes(vowel));
  return bare(one) === bare(other);
}

const bare = (vowel: string): string => vowel.normalize('NFD').charAt(0);

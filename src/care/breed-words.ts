import type { Species } from '../record/vocabulary.js';
import { wholeWords } from '../units/whole-words.js';

/**
 * Words of breeds that one species alone has, in English and Spanish, and the names of the species. Not every breed: only
 * those that many patients have. Common knowledge of the trade, from memory, unverified.
 */
export const BREED_WORDS: Readonly<Record<Species, string>> = {
  dog: 'dog|hound|greyhound|wolfhound|foxhound|retriever|labrador|shepherd|terrier|spaniel|collie|poodle|dachshund|chihuahua|bulldog|mastiff|pointer|setter|schnauzer|beagle|boxer|rottweiler|husky|great dane|pinscher|corgi|pug|whippet|brittany|maltipoo|shih tzu|pomeranian|dalmatian|perro|podenco|galgo|mastín|pastor|caniche|teckel|bodeguero|bichón|carlino',
  cat: 'cat|shorthair|longhair|siamese|persian|maine coon|ragdoll|sphynx|bengal|birman|burmese|abyssinian|norwegian forest|russian blue|gato|gata|siamés|siamesa|persa|común europeo|azul ruso',
  rabbit: 'rabbit|lop|lionhead|netherland dwarf|flemish giant|conejo|coneja|belier|cabeza de león',
  ferret: 'ferret|hurón|hurona',
};

const OF_SPECIES = Object.entries(BREED_WORDS).map(
  ([species, words]) => [species as Species, wholeWords(words)] as const,
);

/** The species that a breed is one of, where its words say so and do not speak for the patient's own; null where they do not. */
export function otherSpecies(species: Species, breed: string): Species | null {
  const named = OF_SPECIES.flatMap(([one, words]) => (words.test(breed) ? [one] : []));
  return named.length === 1 && named[0] !== species ? (named[0] as Species) : null;
}

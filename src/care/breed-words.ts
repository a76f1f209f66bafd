import type { Species } from '../record/vocabulary.js';

/**
 * Words of breeds that one species alone has, in English and Spanish, and the names of the species. Not every breed: only
 * those that many patients have. Common knowledge of the trade, from memory, unverified.
 */
const OF_SPECIES: Readonly<Record<Species, RegExp>> = {
  dog: /\b(dog|hound|greyhound|wolfhound|foxhound|retriever|labrador|shepherd|terrier|spaniel|collie|poodle|dachshund|chihuahua|bulldog|mastiff|pointer|setter|schnauzer|beagle|boxer|rottweiler|husky|great dane|pinscher|corgi|pug|whippet|brittany|maltipoo|shih tzu|pomeranian|dalmatian|perro|podenco|galgo|mastín|pastor|caniche|teckel|bodeguero|bichón|carlino)\b/iu,
  cat: /\b(cat|shorthair|longhair|siamese|persian|maine coon|ragdoll|sphynx|bengal|birman|burmese|abyssinian|norwegian forest|russian blue|gato|gata|siamés|siamesa|persa|común europeo|azul ruso)\b/iu,
  rabbit:
    /\b(rabbit|lop|lionhead|netherland dwarf|flemish giant|conejo|coneja|belier|cabeza de león)\b/iu,
  ferret: /\b(ferret|hurón|hurona)\b/iu,
};

/** The species that a breed is one of, where its words say so and do not speak for the patient's own; null where they do not. */
export function otherSpecies(species: Species, breed: string): Species | null {
  if (OF_SPECIES[species].test(breed)) return null;
  const others = Object.entries(OF_SPECIES).filter(([, words]) => words.test(breed));
  return others.length === 1 ? (others[0] as [Species, RegExp])[0] : null;
}

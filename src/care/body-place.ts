import { wholeWords } from '../units/whole-words.js';

/**
 * Places of the body far enough from one another that nobody takes one for the other, by the words that a record may use
 * for them in English or Spanish. Names of anatomy.
 */
export const PLACE_WORDS = {
  eye: 'eyes?|eyelids?|ojos?|p[aá]rpados?',
  ear: 'ears?|orejas?|o[ií]dos?',
  mouth:
    'mouth|tooth|teeth|gums?|jaws?|canines?|incisors?|(?:pre)?molars?|boca|dientes?|muelas?|colmillos?|mand[ií]bula|enc[ií]as?',
  knee: 'knees?|stifles?|rodillas?|babillas?',
  elbow: 'elbows?|codos?',
  shoulder: 'shoulders?|hombros?',
  wrist: 'wrists?|carpus|carpos?',
  hip: 'hips?|caderas?',
  hock: 'hocks?|tarsus|ankles?|corvej[oó]n|tarsos?',
  paw: 'paws?|toes?|dedos?',
  chest: 'chest|thorax|pecho|t[oó]rax',
  belly: 'belly|abdomen|flank|groin|vientre|barriga|ijar|ingle',
  rear: 'anus|tail|perineum|scrotum|ano|cola|perin[eé]|perineo|escroto',
} as const;
type BodyPlace = keyof typeof PLACE_WORDS;

const PLACES = Object.entries(PLACE_WORDS).map(
  ([place, words]) => [place as BodyPlace, wholeWords(words)] as const,
);

const BELLY: readonly BodyPlace[] = ['belly'];

/** Where a procedure is done that is done at few places, by its key in content/. Common practice. */
const DONE_AT: ReadonlyMap<string, readonly BodyPlace[]> = new Map<string, readonly BodyPlace[]>([
  ['mammary lump removal', ['belly', 'chest']],
  ['eyelid lump removal', ['eye']],
  ['spay', BELLY],
  ['castration', ['belly', 'rear']],
  ['bladder stone removal', ['belly', 'rear']],
  ['tooth removal', ['mouth']],
  ['spleen removal', BELLY],
  ['twisted stomach repair', BELLY],
  ['cesarean section', BELLY],
  ['infected womb removal', BELLY],
  ['kidney removal', BELLY],
  ['eye removal', ['eye']],
  ['knee ligament repair', ['knee']],
  ['leg removal', ['shoulder', 'elbow', 'wrist', 'hip', 'knee', 'hock', 'paw']],
  ['ear flap drainage', ['ear']],
  ['adrenal gland removal', BELLY],
  ['new opening for urine', ['belly', 'rear']],
  ['anal gland removal', ['rear']],
]);

/**
 * The places where a procedure is done, when a site names others alone; null where the two can be true together, or nothing
 * is known of either.
 * @param site in the record's own words
 */
export function placesMeant(procedure: string, site: string): readonly BodyPlace[] | null {
  const meant = DONE_AT.get(procedure);
  const named = PLACES.flatMap(([place, words]) => (words.test(site) ? [place] : []));
  if (meant === undefined || named.length === 0) return null;
  return named.some((place) => meant.includes(place)) ? null : meant;
}

/**
 * Places of the body far enough from one another that nobody takes one for the other, by the words that a record may use
 * for them in English or Spanish. Names of anatomy.
 */
const PLACES = {
  eye: /\b(?:eyes?|eyelids?|ojos?|p[aá]rpados?)\b/i,
  ear: /\b(?:ears?|orejas?|o[ií]dos?)\b/i,
  mouth:
    /\b(?:mouth|tooth|teeth|gums?|jaws?|canines?|incisors?|(?:pre)?molars?|boca|dientes?|muelas?|colmillos?|mand[ií]bula|enc[ií]as?)\b/i,
  knee: /\b(?:knees?|stifles?|rodillas?|babillas?)\b/i,
  elbow: /\b(?:elbows?|codos?)\b/i,
  shoulder: /\b(?:shoulders?|hombros?)\b/i,
  wrist: /\b(?:wrists?|carpus|carpos?)\b/i,
  hip: /\b(?:hips?|caderas?)\b/i,
  hock: /\b(?:hocks?|tarsus|ankles?|corvej[oó]n|tarsos?)\b/i,
  paw: /\b(?:paws?|toes?|dedos?)\b/i,
  chest: /\b(?:chest|thorax|pecho|t[oó]rax)\b/i,
  belly: /\b(?:belly|abdomen|flank|groin|vientre|barriga|ijar|ingle)\b/i,
  rear: /\b(?:anus|tail|perineum|scrotum|ano|cola|perin[eé]|perineo|escroto)\b/i,
} as const;
type BodyPlace = keyof typeof PLACES;

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
  const named = (Object.keys(PLACES) as BodyPlace[]).filter((place) => PLACES[place].test(site));
  if (meant === undefined || named.length === 0) return null;
  return named.some((place) => meant.includes(place)) ? null : meant;
}

import { apart, type Form } from './form.js';

const SOMEBODY =
  'owners?|surgeons?|vets?|veterinarians?|nurses?|technicians?|students?|doctors?|wife|husband|neighbou?rs?|dueñ[oa]s?|cirujan[oa]s?|veterinari[oa]s?|auxiliar(?:es)?|doctora?|vecin[oa]s?';
const WEARS =
  'beard|moustache|hair|glasses|tattoos?|freckles|accent|wheelchair|crutch(?:es)?|limp|barba|bigote|pelo|gafas|tatuajes?|pecas|acento|silla de ruedas|muletas';
const WORKS =
  'teach(?:es)?|taught|works?|worked|preach(?:es)?|drives?|farms?|runs?|owns?|enseña|trabaja|conduce|regenta';
const SOME_WORDS = '(?:\\s+[\\p{L}-]{1,14}){0,3}?\\s+';

/** By what people know one another without a name. The words are a choice of ours: who is described in others is not found. */
export const OF_FEATURES: readonly Form[] = [
  [
    'a feature of a person',
    apart(`(?:${SOMEBODY})\\s+(?:with|con|who has|que tiene)${SOME_WORDS}(?:${WEARS})`, 'giu'),
  ],
  [
    'a feature of a person',
    apart(
      `(?:bearded|red-haired|blond|blonde|bald|pelirroj[oa]|rubi[oa]|calv[oa])\\s+(?:${SOMEBODY})`,
      'giu',
    ),
  ],
  [
    'what a person does',
    apart(`(?:${SOMEBODY})\\s+(?:${WORKS})\\s+(?:at|for|in|a|an|the|en|para|un|una|el|la)`, 'giu'),
  ],
  [
    'what a person does',
    apart(
      `the\\s+(?:mayor|priest|vicar|sheriff|headmaster|headmistress)(?:['’]s)?|(?:el|la|del|al)\\s+(?:alcalde|alcaldesa|cura|párroco|comisario)`,
      'giu',
    ),
  ],
];

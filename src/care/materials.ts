import type { Material } from '../record/vocabulary.js';

/** How long a suture material or a film of adhesive holds and lasts in tissue, with the place where the figures were read. */
export interface MaterialBehaviour {
  readonly absorbable: boolean;
  /** Share of the first tensile strength left after so many days, in per cent, low to high. */
  readonly strength: readonly { readonly day: number; readonly left: readonly [number, number] }[];
  /** Days until it is absorbed, from and to; null where it stays or no figure was found. */
  readonly absorbedBy: readonly [number, number] | null;
  /** Days until it comes off by itself, from and to; null for all that is not a film on the skin. */
  readonly sheds: readonly [number, number] | null;
  readonly source: string;
}

const CHAPTER =
  'Veterinary suture-materials chapter at newlib.net/nw_rd1024021/p22, citing van Heerden 2005';
const LASTS = 'Common practice (it does not lose its strength while skin heals)';

/**
 * Suture materials by their generic names. Figures come from bench and laboratory-animal studies and from suppliers;
 * infection, enzymes and tension shorten them in a patient. Source: named in each entry.
 */
export const MATERIAL_BEHAVIOUR: Readonly<Record<Material, MaterialBehaviour>> = {
  lactomer: {
    absorbable: true,
    strength: [
      { day: 14, left: [80, 80] },
      { day: 21, left: [30, 30] },
    ],
    absorbedBy: [56, 70],
    sheds: null,
    source: CHAPTER,
  },
  'polyglytone 6211': {
    absorbable: true,
    strength: [{ day: 10, left: [20, 30] }],
    absorbedBy: [56, 56],
    sheds: null,
    source: CHAPTER,
  },
  'polyglactin 910': {
    absorbable: true,
    strength: [
      { day: 14, left: [79, 79] },
      { day: 21, left: [58, 58] },
      { day: 28, left: [25, 25] },
      { day: 35, left: [0, 0] },
    ],
    absorbedBy: [56, 70],
    sheds: null,
    source: "Supplier's sheet, not yet checked against a second source",
  },
  'poliglecaprone 25': {
    absorbable: true,
    // The dyed and the undyed strand differ; the record does not say which, so the range spans both.
    strength: [
      { day: 7, left: [50, 70] },
      { day: 14, left: [20, 40] },
      { day: 28, left: [0, 0] },
    ],
    absorbedBy: [91, 119],
    sheds: null,
    source: "Supplier's sheet at suturex.us/poliglecaprone, dyed and undyed strands together",
  },
  polydioxanone: {
    absorbable: true,
    strength: [
      { day: 28, left: [58, 58] },
      { day: 56, left: [14, 14] },
    ],
    absorbedBy: [180, 220],
    sheds: null,
    source:
      "Strength: Surg Gynecol Obstet 1981;153(4):497-507 (PubMed 6792722), in rats. Absorption: supplier's sheet at surgicalspecialties.com/animal-health-materials",
  },
  nylon: { absorbable: false, strength: [], absorbedBy: null, sheds: null, source: LASTS },
  polypropylene: { absorbable: false, strength: [], absorbedBy: null, sheds: null, source: LASTS },
  'stainless steel staples': {
    absorbable: false,
    strength: [],
    absorbedBy: null,
    sheds: null,
    source: LASTS,
  },
  'tissue adhesive': {
    absorbable: false,
    strength: [],
    absorbedBy: null,
    sheds: [5, 10],
    source:
      'Home-care sheet 1327 at childrenswi.org, on human skin; for animals from memory, unverified',
  },
};

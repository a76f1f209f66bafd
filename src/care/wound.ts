import type { Layer, Material } from '../record/vocabulary.js';
import { MATERIAL_BEHAVIOUR, type MaterialBehaviour } from './materials.js';

/** A layer of the closure and what it was closed with. */
export interface ClosureLayer {
  readonly layer: Layer;
  readonly material: Material;
}

/** What decides how long a wound takes. The length of the incision is not here: a wound heals across (common practice). */
export interface Wound {
  readonly healing: 'edge to edge' | 'left open';
  /** mm */
  readonly edgeGap: number;
  readonly tension: 'none' | 'some' | 'high';
  readonly slowerBecause: readonly string[];
  readonly layers: readonly ClosureLayer[];
  readonly inMouth?: boolean;
  /** Left open without a bandage. */
  readonly bare?: boolean;
}

/** What becomes of what the owner can see on the skin. */
export type SkinStitches =
  /** Nothing holds the skin: the wound is left open, or no stitch reaches it. */
  | { readonly kind: 'none' }
  /** They are taken out between two days after surgery, counted from the day of surgery as day 0. */
  | {
      readonly kind: 'remove';
      readonly from: number;
      readonly to: number;
      readonly later: readonly string[];
    }
  /** They dissolve; the material is gone by these days, where a figure is known. */
  | {
      readonly kind: 'dissolve';
      readonly absorbedBy: readonly [number, number] | null;
      readonly hidden: boolean;
    }
  /** A film of adhesive comes off by itself between two days; stitches within the skin may dissolve under it. */
  | {
      readonly kind: 'shed';
      readonly from: number;
      readonly to: number;
      readonly overStitches: boolean;
    };

/** Days after surgery at which skin sutures come out. Source: common practice. */
export const REMOVAL_DAYS = { from: 10, to: 14 } as const;
/** The same where the wound is under tension or heals slowly. Source: common practice ("later"); the days are from memory, unverified. */
export const LATE_REMOVAL_DAYS = { from: 14, to: 21 } as const;
/** Millimetres a day by which an open wound narrows, slow to fast, once it contracts. From memory, unverified. */
const NARROWING = { slow: 0.6, fast: 0.8 } as const;

/**
 * A cut that is left open to drain, as after the neuter of a cat, and the days after surgery at which it is closed: no skin
 * is lacking, so it seals rather than fills in. Common practice; millimetres and days are from memory, unverified.
 */
const SMALL_OPENING = { widest: 10, from: 7, to: 10 } as const;

/** How long the skin takes, in days. */
export interface HealingEstimate {
  /** Joined edges and a small opening count from the day of surgery; any other open wound from when it begins to contract. */
  readonly by: 'joined edges' | 'small opening' | 'filling in';
  readonly from: number;
  readonly to: number;
  /** Why it may take longer; for an open wound no figure says how much longer. */
  readonly later: readonly string[];
}

/**
 * Joined edges hold on their own after the days at which stitches come out; an open wound takes as long as its edges are
 * apart. Gums close within the days of joined edges, stitched or not (from memory, unverified). Sources of the rest: beside
 * the numbers above.
 */
export function healingEstimate(wound: Wound): HealingEstimate {
  const later = slowed(wound);
  if (wound.healing === 'left open' && !wound.inMouth) {
    const { widest, from, to } = SMALL_OPENING;
    if (wound.bare && wound.edgeGap <= widest) return { by: 'small opening', from, to, later };
    return {
      by: 'filling in',
      from: Math.ceil(wound.edgeGap / NARROWING.fast),
      to: Math.ceil(wound.edgeGap / NARROWING.slow),
      later,
    };
  }
  return { by: 'joined edges', ...window(later), later };
}

const window = (later: readonly string[]) => (later.length > 0 ? LATE_REMOVAL_DAYS : REMOVAL_DAYS);

/** Every reason for slower healing. Edges that were joined but do not meet have to fill the gap first (common practice). */
function slowed({ healing, edgeGap, tension, slowerBecause }: Wound): string[] {
  return [
    ...(tension === 'high' ? ['high tension'] : []),
    ...(healing === 'edge to edge' && edgeGap > 0 ? ['edges apart'] : []),
    ...slowerBecause,
  ];
}

/** Whether the skin stitches come out, dissolve or shed, and when. */
export function skinStitches(wound: Wound): SkinStitches {
  const skin = wound.layers.filter(inSkin);
  if (skin.some((layer) => heldBy(layer).kind === 'until removed')) {
    const later = slowed(wound);
    return { kind: 'remove', ...window(later), later };
  }
  const film = skin.map(heldBy).find((hold) => hold.kind === 'until it sheds');
  if (film) {
    const { from, to } = film;
    const overStitches = skin.some(({ material }) => MATERIAL_BEHAVIOUR[material].absorbable);
    return { kind: 'shed', from, to, overStitches };
  }
  // Where both are there, the owner sees the stitches on the skin, not those within it.
  const dissolving = skin.find(({ layer }) => layer !== 'within the skin') ?? skin[0];
  if (!dissolving) return { kind: 'none' };
  return {
    kind: 'dissolve',
    absorbedBy: MATERIAL_BEHAVIOUR[dissolving.material].absorbedBy,
    hidden: dissolving.layer === 'within the skin',
  };
}

const OUTERMOST: readonly Layer[] = ['within the skin', 'skin', 'gum'];
const inSkin = ({ layer }: ClosureLayer) => OUTERMOST.includes(layer);

/** How long a layer is held by what was put into it. */
export type Hold =
  /**
   * The last day at which the tables still show half of the strength or more, and the first at which they show less;
   * null where they show no such day. Between the two nothing is claimed.
   */
  | {
      readonly kind: 'while the strand lasts';
      readonly halfOn: number | null;
      readonly lessBy: number | null;
    }
  | { readonly kind: 'until removed' }
  | { readonly kind: 'for good' }
  | { readonly kind: 'until it sheds'; readonly from: number; readonly to: number };

/** Half of the first strength, in per cent: a yardstick to compare strands by, not a clinical number. */
const HALF = 50;

/** How long a layer is held, by its material. Sources: beside the numbers of `materials.ts`. */
export function heldBy(layer: ClosureLayer): Hold {
  const { absorbable, strength, sheds } = MATERIAL_BEHAVIOUR[layer.material];
  if (sheds) return { kind: 'until it sheds', from: sheds[0], to: sheds[1] };
  if (!absorbable) return { kind: inSkin(layer) ? 'until removed' : 'for good' };
  return {
    kind: 'while the strand lasts',
    halfOn: strength.findLast(({ left }) => left[0] >= HALF)?.day ?? null,
    lessBy: strength.find(({ left }) => left[1] < HALF)?.day ?? null,
  };
}

/** A layer with what is known of its strand and of how long it holds. */
export interface LayerOutlook extends ClosureLayer {
  readonly behaviour: MaterialBehaviour;
  readonly hold: Hold;
}

/** Each layer with what is known of its strand and of how long it holds. */
export const outlookOf = (layers: readonly ClosureLayer[]): LayerOutlook[] =>
  layers.map((layer) => ({
    ...layer,
    behaviour: MATERIAL_BEHAVIOUR[layer.material],
    hold: heldBy(layer),
  }));

import type { Layer, Material } from '../record/vocabulary.js';
import { MATERIAL_BEHAVIOUR, type MaterialBehaviour } from './materials.js';

export interface ClosureLayer {
  readonly layer: Layer;
  readonly material: Material;
}

export interface Wound {
  readonly tension: 'none' | 'some' | 'high';
  readonly slowerBecause: readonly string[];
  readonly layers: readonly ClosureLayer[];
}

/** What becomes of the stitches that the owner can see. */
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
    };

/** Days after surgery at which skin sutures come out. Source: common practice. */
export const REMOVAL_DAYS = { from: 10, to: 14 } as const;
/** The same where the wound is under tension or heals slowly. Source: common practice ("later"); the days are from memory, unverified. */
export const LATE_REMOVAL_DAYS = { from: 14, to: 21 } as const;

/**
 * Whether the skin stitches come out or dissolve, and when.
 * The length of the incision plays no part: a wound heals across, from edge to edge (common practice).
 */
export function skinStitches(wound: Wound): SkinStitches {
  const skin = wound.layers.filter(({ layer }) => layer === 'skin' || layer === 'within the skin');
  const stays = skin.find(({ material }) => !MATERIAL_BEHAVIOUR[material].absorbable);
  const later = [...(wound.tension === 'high' ? ['high tension'] : []), ...wound.slowerBecause];
  if (stays)
    return { kind: 'remove', ...(later.length > 0 ? LATE_REMOVAL_DAYS : REMOVAL_DAYS), later };
  // Where both are there, the owner sees the stitches on the skin, not those within it.
  const dissolving = skin.find(({ layer }) => layer === 'skin') ?? skin[0];
  if (!dissolving) return { kind: 'none' };
  return {
    kind: 'dissolve',
    absorbedBy: MATERIAL_BEHAVIOUR[dissolving.material].absorbedBy,
    hidden: dissolving.layer === 'within the skin',
  };
}

/** A layer with what is known of its strand. */
export interface LayerOutlook extends ClosureLayer {
  readonly behaviour: MaterialBehaviour;
}

export const outlookOf = (layers: readonly ClosureLayer[]): LayerOutlook[] =>
  layers.map((layer) => ({ ...layer, behaviour: MATERIAL_BEHAVIOUR[layer.material] }));

import type { Told } from './told.js';

/** Millimetres between edges that somebody could still call joined. Own choice, not a clinical number. */
const WIDEST_JOINED = 5;

/** How a wound is left by a procedure whose very words say so, by its key in content/. */
const HEALING: ReadonlyMap<string, 'edge to edge' | 'left open'> = new Map([
  ['wound cleaning, left open', 'left open'],
  ['wound repair', 'edge to edge'],
] as const);

/** What joins edges without a strand, and the one pattern that it takes. */
const OWN_PATTERNS = [
  { material: 'tissue adhesive', pattern: 'adhesive film' },
  { material: 'stainless steel staples', pattern: 'staples' },
] as const;

/** A closure or a layer that contradicts itself. */
export function ofTheClosure({ value: { closure, surgery }, add }: Told): void {
  if (closure === undefined) return;
  const day = surgery.date;
  if (closure.healing === 'edge to edge' && closure.layers.length === 0) {
    add(
      'a closure that contradicts itself',
      ['closure', 'layers'],
      'no layers',
      'what holds the edges together',
      'Add the layers.',
    );
  }
  if (closure.healing === 'left open' && closure['edge gap'].value === 0) {
    add(
      'a closure that contradicts itself',
      ['closure', 'edge gap'],
      closure['edge gap'].written,
      'a distance above zero, as the wound is left open',
      'Write the distance between the edges.',
    );
  }
  const told = HEALING.get(surgery.procedure);
  if (told !== undefined && told !== closure.healing) {
    add(
      'a closure that contradicts itself',
      ['closure', 'healing'],
      `${closure.healing} after "${surgery.procedure}"`,
      `${told}, as the sheet tells of that procedure`,
      'Mend one of the two.',
    );
  }
  const gap = closure['edge gap'];
  const apart = gap.unit === 'cm' ? gap.value * 10 : gap.value;
  if (closure.healing === 'edge to edge' && apart > WIDEST_JOINED) {
    add(
      'a closure that contradicts itself',
      ['closure', 'edge gap'],
      gap.written,
      `at most ${WIDEST_JOINED} mm between edges that are joined`,
      'Mend the distance, or write "healing: left open" where the edges do not meet.',
    );
  }
  if (closure.healing === 'edge to edge' && closure.bandage === 'no') {
    add(
      'a closure that contradicts itself',
      ['closure', 'bandage'],
      'no bandage over joined edges',
      'the line only where a wound is left open, as the sheet speaks of no bandage over joined edges',
      'Remove it.',
    );
  }
  for (const [index, { layer, material, size, pattern }] of closure.layers.entries()) {
    const isNoStrand = OWN_PATTERNS.some((one) => one.material === material);
    if (material === 'tissue adhesive' && layer !== 'skin') {
      add(
        'a layer that contradicts itself',
        ['closure', 'layers', index, 'material'],
        `tissue adhesive in the layer "${layer}"`,
        'a strand, as tissue adhesive only joins the surface of the skin',
        'Mend the layer or the material.',
      );
    }
    const own = OWN_PATTERNS.find(
      (one) => (material === one.material) !== (pattern === one.pattern),
    );
    if (own) {
      add(
        'a layer that contradicts itself',
        ['closure', 'layers', index, 'pattern'],
        `the pattern "${pattern}" with ${material}`,
        `the pattern "${own.pattern}" with ${own.material}, and only there`,
        'Mend the pattern or the material.',
      );
    }
    if (size !== undefined && isNoStrand) {
      add(
        'a layer that contradicts itself',
        ['closure', 'layers', index, 'size'],
        `a USP size of ${material}`,
        'a size only where there is a strand',
        'Remove it.',
      );
    }
  }
  const removeOn = closure['remove on'];
  if (removeOn !== undefined && removeOn <= day) {
    add(
      'moments out of order',
      ['closure', 'remove on'],
      removeOn,
      `a day after the surgery on ${day}`,
      'Mend one of the two dates.',
    );
  }
}

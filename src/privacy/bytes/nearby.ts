// Choices of the method and codes of file formats: not clinical numbers.

import type { Gatherer } from './piece.js';

/**
 * What may be left out of a text with a few changes, when the text without them is searched as well: stretches in which
 * whatever stands is found in that text too.
 *
 * An identifier that a change has a part in begins and ends near it: it has at most 300 letters (`spellings.ts`) and
 * three other characters before each, white space of any length counted as one. So this many bytes of plain characters,
 * white space and bytes of other alphabets not counted, are more than may lie between it and a change, with what is
 * looked at around it. A stretch is left out only between places where no encoded run goes on and where it makes no
 * difference to anything near by what stands beyond: behind three signs in a row.
 */
const NEAR = 1500;
/** Fewer bytes are not worth while. */
const WORTH_WHILE = 256;

const SIGN = 1;
/** A sign that stands in no base64 and between no hexadecimal digits. */
const HARD = 2;
const KINDS = new Uint8Array(256);
for (const sign of '!"#$%&\'()*+,-./:;<=>?@[\\]^_`{|}~') KINDS[sign.charCodeAt(0)] = SIGN;
for (const sign of '"<>(){}[]|') KINDS[sign.charCodeAt(0)] = SIGN | HARD;

/** Whether a text may be cut before a byte. */
function mayCut(bytes: Uint8Array, at: number): boolean {
  const [a, b, c] = [bytes[at - 3] ?? 0, bytes[at - 2] ?? 0, bytes[at - 1] ?? 0];
  const all = (KINDS[a] as number) & (KINDS[b] as number) & (KINDS[c] as number) & SIGN;
  const any = ((KINDS[a] as number) | (KINDS[b] as number) | (KINDS[c] as number)) & HARD;
  return all !== 0 && any !== 0;
}

const counts = (byte: number): number => (byte > 0x20 && byte < 0x80 ? 1 : 0);

/** From where on a text is near a change at a byte; no earlier than a limit. */
export function nearbyFrom(bytes: Uint8Array, limit: number, change: number): number {
  let passed = 0;
  let at = change;
  for (; at > limit; at--) {
    if (passed >= NEAR && mayCut(bytes, at)) return at;
    passed += counts(bytes[at - 1] as number);
  }
  return limit;
}

/** Up to where a text is near a change that ends at a byte; no further than a limit. */
export function nearbyTo(bytes: Uint8Array, change: number, limit: number): number {
  let passed = 0;
  for (let at = change; at < limit; at++) {
    if (passed >= NEAR && mayCut(bytes, at)) return at;
    passed += counts(bytes[at] as number);
  }
  return limit;
}

/** Copies what is near the end of one change, if the next is far, and gives from where on the text is near that. */
export function skipFar(out: Gatherer, bytes: Uint8Array, end: number, next: number): number {
  if (next - end <= 2 * NEAR + WORTH_WHILE) return end;
  const to = nearbyTo(bytes, end, next);
  const from = nearbyFrom(bytes, to, next);
  if (from - to < WORTH_WHILE) return end;
  out.copy(bytes, end, to);
  out.apart(to);
  return from;
}

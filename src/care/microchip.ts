/** Digits of a chip's number as ISO 11784 has it. Not a clinical number. */
const DIGITS = 15;

/** Characters of the numbers of chips made before that, in digits and letters from A to F. From memory, unverified. */
const OF_OLDER_CHIPS: readonly number[] = [9, 10];

/** How a chip's number is parted, which is no part of it. */
const PARTED = /[\s.-]/g;

/** How many characters a microchip number has where no chip has so many, or one that is no digit; null where it may be one. */
export function misreadMicrochip(number: string): number | null {
  const bare = number.replace(PARTED, '');
  const fits =
    (bare.length === DIGITS && /^\d+$/.test(bare)) ||
    (OF_OLDER_CHIPS.includes(bare.length) && /^[\dA-F]+$/i.test(bare));
  return fits ? null : bare.length;
}

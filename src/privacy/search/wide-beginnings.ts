// Choices of the method and codes of file formats: not clinical numbers.

import { FOLD, SEVERAL, severalOf } from './fold.js';
import type { Encoding } from './read.js';

type Wide = Exclude<Encoding, 'UTF-8'>;

/** Where a spelling may begin in UTF-16. */
export class WideBeginnings {
  /** 1 for each code unit that may be the first. */
  private readonly units = new Uint8Array(0x10000);
  /** 1 for each byte that is the higher one of such a unit. */
  private readonly highBytes = new Uint8Array(0x100);

  /** @param firstOfAll with what letters spellings begin */
  constructor(firstOfAll: ReadonlySet<number>) {
    for (let unit = 0; unit < 0x10000; unit++) {
      const folded = FOLD[unit] as number;
      const leads = unit >= 0xd800 && unit < 0xdc00;
      const opens =
        folded === SEVERAL
          ? severalOf(unit).some((letter) => firstOfAll.has(letter))
          : firstOfAll.has(folded);
      if (!leads && !opens) continue;
      this.units[unit] = 1;
      this.highBytes[unit >> 8] = 1;
    }
  }

  /** In both orders, at even and at odd bytes alike. */
  in(bytes: Uint8Array, begin: (at: number, encoding: Wide) => void): void {
    const { units, highBytes } = this;
    const { length } = bytes;
    for (let at = 0; at < length; at++) {
      const byte = bytes[at] as number;
      if (highBytes[byte] === 0) continue;
      const upper = byte << 8;
      if (at > 0) {
        const unit = upper | (bytes[at - 1] as number);
        if (units[unit] === 1) begin(at - 1, 'UTF-16LE');
      }
      const unit = upper | (bytes[at + 1] ?? 0);
      if (units[unit] === 1) begin(at, 'UTF-16BE');
    }
    // The last byte may be half of a unit.
    const last = bytes[length - 1] ?? 0;
    if (units[last] === 1) begin(length - 1, 'UTF-16LE');
  }
}

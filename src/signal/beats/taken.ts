/** A place that may hold a QRS. */
export interface Candidate {
  /** On the search grid. */
  readonly position: number;
  /** Multiple of the local QRS level. */
  readonly prominence: number;
  /** Not cut where the lead begins, ends or cannot be read. */
  readonly isWhole: boolean;
}

/** Which of the candidates, in order of time, have been taken as beats so far. */
export class Taken {
  readonly #candidates: readonly Candidate[];
  readonly #indexOf: ReadonlyMap<Candidate, number>;
  readonly #isBeat: Uint8Array;

  constructor(candidates: readonly Candidate[]) {
    this.#candidates = candidates;
    this.#indexOf = new Map(candidates.map((candidate, index) => [candidate, index]));
    this.#isBeat = new Uint8Array(candidates.length);
  }

  add(candidate: Candidate): void {
    this.#isBeat[this.#indexOf.get(candidate)!] = 1;
  }

  has(candidate: Candidate): boolean {
    return this.#isBeat[this.#indexOf.get(candidate)!] === 1;
  }

  /** In order of time. */
  beats(): Candidate[] {
    return this.#candidates.filter((_, index) => this.#isBeat[index] === 1);
  }

  /** The nearest beat before a candidate. */
  before(candidate: Candidate): Candidate | undefined {
    return this.#next(this.#indexOf.get(candidate)!, -1, 1)[0];
  }

  /** The nearest beat after a candidate. */
  after(candidate: Candidate): Candidate | undefined {
    return this.#next(this.#indexOf.get(candidate)!, 1, 1)[0];
  }

  /** The beats nearest to a candidate, half of them on either side, without itself. */
  around(candidate: Candidate, count: number): Candidate[] {
    const index = this.#indexOf.get(candidate)!;
    return [...this.#next(index, -1, count / 2), ...this.#next(index, 1, count / 2)];
  }

  /** Whether a beat lies within `reach` of a grid position. */
  hasWithin(position: number, reach: number): boolean {
    let low = 0;
    let end = this.#candidates.length;
    while (low < end) {
      const middle = (low + end) >> 1;
      if (this.#candidates[middle]!.position < position - reach) low = middle + 1;
      else end = middle;
    }
    for (let i = low; (this.#candidates[i]?.position ?? Infinity) <= position + reach; i++) {
      if (this.#isBeat[i] === 1) return true;
    }
    return false;
  }

  #next(index: number, step: 1 | -1, count: number): Candidate[] {
    const found: Candidate[] = [];
    for (let i = index + step; found.length < count && this.#candidates[i]; i += step) {
      if (this.#isBeat[i] === 1) found.push(this.#candidates[i]!);
    }
    return found;
  }
}

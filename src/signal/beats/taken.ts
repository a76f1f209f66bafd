/** A place that may hold a QRS. */
export interface Candidate {
  /** Among all candidates. */
  readonly place: number;
  /** On the search grid. */
  readonly position: number;
  /** Multiple of the local QRS level. */
  readonly prominence: number;
  /** Not cut where the lead begins, ends or cannot be read. */
  readonly isWhole: boolean;
}

/** Which of the candidates, all of them in order of time, have been taken as beats so far. */
export class Taken {
  readonly #isBeat: Uint8Array;

  constructor(private readonly candidates: readonly Candidate[]) {
    this.#isBeat = new Uint8Array(candidates.length);
  }

  add({ place }: Candidate): void {
    this.#isBeat[place] = 1;
  }

  /** In order of time. */
  beats(): Candidate[] {
    const beats: Candidate[] = [];
    for (const candidate of this.candidates) {
      if (this.#isBeat[candidate.place] === 1) beats.push(candidate);
    }
    return beats;
  }

  /** The nearest beat before a candidate. */
  before({ place }: Candidate): Candidate | undefined {
    return this.#next(place, -1);
  }

  /** The nearest beat after a candidate. */
  after({ place }: Candidate): Candidate | undefined {
    return this.#next(place, 1);
  }

  /** The beats nearest to a candidate, half of them on either side, without itself. */
  around(candidate: Candidate, count: number): Candidate[] {
    const found: Candidate[] = [];
    for (const step of [-1, 1] as const) {
      let beat = this.#next(candidate.place, step);
      for (let k = 0; beat && k < count / 2; k++) {
        found.push(beat);
        beat = this.#next(beat.place, step);
      }
    }
    return found;
  }

  /** Whether a beat lies within `reach` of a grid position. */
  hasWithin(position: number, reach: number): boolean {
    const { candidates } = this;
    let low = 0;
    let end = candidates.length;
    while (low < end) {
      const middle = (low + end) >> 1;
      if (candidates[middle]!.position < position - reach) low = middle + 1;
      else end = middle;
    }
    for (let i = low; i < candidates.length; i++) {
      if (candidates[i]!.position > position + reach) return false;
      if (this.#isBeat[i] === 1) return true;
    }
    return false;
  }

  #next(place: number, step: 1 | -1): Candidate | undefined {
    let i = place + step;
    while (i >= 0 && i < this.candidates.length && this.#isBeat[i] === 0) i += step;
    return this.candidates[i];
  }
}

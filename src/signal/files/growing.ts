/** Room at first, doubled whenever it is full. Not a clinical number. */
const ROOM = 1024;

/** Numbers that come one by one, laid side by side: a list would take twice the memory while it grows. */
export class Growing {
  #values = new Float64Array(ROOM);
  #count = 0;

  add(value: number): void {
    if (this.#count === this.#values.length) {
      const larger = new Float64Array(2 * this.#count);
      larger.set(this.#values);
      this.#values = larger;
    }
    this.#values[this.#count++] = value;
  }

  /** All of them, in an array of their own. */
  all(): Float64Array {
    return this.#values.slice(0, this.#count);
  }
}

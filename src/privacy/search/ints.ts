/** A row of numbers that grows. */
export class Ints {
  private all = new Int32Array(1024);
  private length = 0;

  push(value: number): void {
    if (this.length === this.all.length) {
      const larger = new Int32Array(2 * this.length);
      larger.set(this.all);
      this.all = larger;
    }
    this.all[this.length++] = value;
  }

  done(): Int32Array {
    return this.all.slice(0, this.length);
  }
}

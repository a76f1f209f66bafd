/** One thing whose cost is measured. A row is a file of its own, listed in `main.ts`. */
export interface Row {
  /** What `npm run bench -- <name>` asks for. */
  readonly name: string;
  readonly title: string;
  /** Measures, and gives lines to print. */
  readonly lines: () => Iterable<string>;
}

/** The part of Eleventy's programmatic interface that this project calls; the package ships no types for it. */
declare module '@11ty/eleventy' {
  export default class Eleventy {
    constructor(input: string, output: string, options: object);
    disableLogger(): void;
    write(): Promise<void>;
    toJSON(): Promise<readonly { readonly outputPath: string; readonly content: string }[]>;
  }
}

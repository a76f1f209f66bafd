/** Says a message of the page's words, `{name}` filled with a value; a missing message shows as its key. */
export type Saying = (key: string, values?: Readonly<Record<string, string | number>>) => string;

export const saying =
  (words: Readonly<Record<string, string>>): Saying =>
  (key, values = {}) =>
    (words[key] ?? key).replace(/\{(\w+)\}/g, (whole, name: string) =>
      name in values ? String(values[name]) : whole,
    );

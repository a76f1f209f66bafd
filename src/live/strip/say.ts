/** A sentence of `strip:` in `content/<language>/live.yaml`, with its values put in. */
export type Say = (key: string, values?: Readonly<Record<string, string | number>>) => string;

export function speaker(words: Readonly<Record<string, string>>): Say {
  return (key, values = {}) => {
    const message = words[`strip.${key}`];
    if (message === undefined) throw new Error(`no words under strip.${key}`);
    return message.replace(/\{(\w+)\}/g, (_, name: string) => String(values[name] ?? ''));
  };
}

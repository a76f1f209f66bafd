import { join } from 'node:path';
import { z } from 'zod';
import type { Outcome } from '../../record/problem.js';
import { oneOf, text } from '../../record/words.js';
import { readYaml } from '../../record/yaml-file.js';
import { type Effects, readText } from '../effects.js';

/** A publication that the library cites. */
export interface CitedSource {
  /** Its mark in a text, without brackets. */
  readonly mark: string;
  readonly cite: string;
  /** Address; null where it has none that is open to all. */
  readonly at: string | null;
  /** How much of it was read for these pages. */
  readonly read: (typeof READ)[number];
}

const READ = ['whole', 'part', 'abstract'] as const;

const schema = z.record(
  z.string().regex(/^[a-z][a-z0-9]*$/, { error: 'a mark of small letters and digits' }),
  z.strictObject({
    cite: text('the publication'),
    at: z
      .string()
      .regex(/^https?:\/\/\S+$/, { error: 'a web address' })
      .optional(),
    read: oneOf('how much of it was read', READ),
  }),
);

/** Where `content/` keeps what is cited. */
export const sourcesFile = (content: string): string => join(content, 'sources.yaml');

/** What the library cites, by mark; the same in every language. */
export function loadSources(
  content: string,
  effects: Effects,
): Outcome<ReadonlyMap<string, CitedSource>> {
  const file = sourcesFile(content);
  const written = readText(effects, file);
  if (!written.ok) return written;
  const read = readYaml(written.value, file, schema);
  if (!read.ok) return read;
  return {
    ok: true,
    value: new Map(
      Object.entries(read.value.value).map(([mark, { cite, at, read: much }]) => [
        mark,
        { mark, cite, at: at ?? null, read: much },
      ]),
    ),
  };
}

import { z } from 'zod';
import { bad, type Outcome } from '../../record/problem.js';
import { CHANNELS, EVENTS, LAYERS } from '../../record/vocabulary.js';
import { oneOf, text } from '../../record/words.js';
import { type Located, readYaml } from '../../record/yaml-file.js';

/** How a page of the library names the things in a case that it explains, in the words that a record uses. */
export interface About {
  readonly rhythms: readonly string[];
  readonly procedures: readonly string[];
  readonly events: readonly string[];
  readonly channels: readonly string[];
  readonly layers: readonly string[];
  readonly healing: readonly string[];
  /** How the displayed heart rate stood to the counted one. */
  readonly shownRate: readonly string[];
}

/** The words that `about` may use. */
export interface AboutKeys {
  readonly rhythms: readonly string[];
  readonly procedures: readonly string[];
}

interface FrontMatter {
  readonly title: string;
  readonly lead: string;
  readonly about: About;
  /** Marks of what is cited. */
  readonly sources: readonly string[];
  readonly cautions: readonly string[];
}

/** A text in its two parts. */
export interface SplitPage {
  readonly front: Located<FrontMatter>;
  readonly body: string;
  /** 1-based line of the file on which the body begins. */
  readonly bodyLine: number;
}

const several = (meaning: string, words: readonly string[]) =>
  z
    .array(oneOf(meaning, words as [string, ...string[]]), { error: `a list of ${meaning}s` })
    .default([]);

const schemaFor = ({ rhythms, procedures }: AboutKeys) =>
  z
    .strictObject({
      title: text('the title of the page'),
      lead: text('what the page says, in one sentence'),
      about: z.strictObject({
        rhythms: several('rhythm', rhythms),
        procedures: several('procedure', procedures),
        events: several('event', EVENTS),
        channels: several('channel', CHANNELS),
        layers: several('layer', LAYERS),
        healing: several('kind of healing', ['edge to edge', 'left open']),
        'shown rate': several('relation', [
          'about double',
          'about half',
          'short window',
          'unsteady',
          'differs',
        ]),
      }),
      sources: z.array(text('the mark of a source in sources.yaml')).min(1, {
        error: 'the marks of what the page cites, one at least',
      }),
      cautions: z
        .array(text('a caution'))
        .min(1, { error: 'what a reader must be careful of, one caution at least' }),
    })
    .transform(
      ({ about: { 'shown rate': shownRate, ...about }, ...rest }): FrontMatter => ({
        ...rest,
        about: { ...about, shownRate },
      }),
    );

/** Parts a page at its second line of dashes, and checks what stands above it. */
export function splitPage(page: string, file: string, keys: AboutKeys): Outcome<SplitPage> {
  const lines = page.split(/\r?\n/);
  const end = lines.indexOf('---', 1);
  if (lines[0] !== '---' || end < 0) {
    return bad({
      kind: 'a page without front matter',
      file,
      line: 1,
      found: 'no front matter',
      expected: 'the title, the sources and the rest between two lines of three dashes',
      mend: 'Begin the file as its neighbours begin.',
    });
  }
  // An empty line in place of the first dashes keeps the numbers of the lines.
  const front = readYaml(['', ...lines.slice(1, end)].join('\n'), file, schemaFor(keys));
  if (!front.ok) return front;
  return {
    ok: true,
    value: { front: front.value, body: lines.slice(end + 1).join('\n'), bodyLine: end + 2 },
  };
}

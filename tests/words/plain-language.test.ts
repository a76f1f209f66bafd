import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readingOf } from '../../src/publish/reading.js';
import type { Block, Handout } from '../../src/words/handout.js';
import { readText, textOf } from '../../src/words/handout-text.js';
import type { Language } from '../../src/words/language.js';
import { ownerSheet } from '../../src/words/owner/owner-sheet.js';
import { passagesOf, sentencesOf } from '../../src/words/reading/sentences.js';
import { demo } from '../facts/demo.js';

const page = readFileSync(new URL('../../docs/plain-language-scores.md', import.meta.url), 'utf8');

const section = (from: string, to: string): string =>
  page.slice(page.indexOf(`\n${from}\n`), page.indexOf(`\n${to}\n`));
const TABLES = {
  cdc: section('## CDC Clear Communication Index', '## PEMAT-P'),
  understandability: section('Understandability', 'Actionability'),
  actionability: section('Actionability', '## What is still missing'),
};
type Instrument = keyof typeof TABLES;

/** `| 4 | A captioned visual | 0 | ... | computed |`; null for an item that does not apply. */
const rowsOf = (instrument: Instrument) =>
  [
    ...TABLES[instrument].matchAll(
      /^\| (\d+) \| [^|]+ \| ([01-]) \| [^|]+ \| (computed|by hand) \|$/gm,
    ),
  ].map(([, item, score, judged]) => ({
    item: Number(item),
    score: score === '-' ? null : Number(score),
    judged,
  }));

const TELEPHONES = [demo.clinic.phone, demo.clinic.emergency?.phone ?? ''];

const sheets = demo.cases.map((one) => {
  const tag = one.facts.identity.owner.language;
  return {
    tag,
    sheet: ownerSheet(one.facts, demo.content.languages.get(tag) as Language, []),
    reading: readingOf(one, demo.content),
    note: one.facts.surgery.noteToOwner.value,
    liquids: [...one.facts.home.medicines, ...one.facts.home.asNeeded].filter(
      ({ measure }) => measure.value.kind === 'syringe',
    ),
  };
});
const english = demo.cases.map(({ facts }) =>
  ownerSheet(facts, demo.content.languages.get('en') as Language, []),
);

const everyBlock = (blocks: readonly Block[]): Block[] =>
  blocks.flatMap((block) => {
    if (block.kind === 'page') return everyBlock(block.blocks);
    return block.kind === 'beside' ? everyBlock([...block.left, ...block.right]) : [block];
  });
const blocksOf = <K extends Block['kind']>({ blocks }: Handout, kind: K) =>
  everyBlock(blocks).filter((block): block is Extract<Block, { kind: K }> => block.kind === kind);
const mainMessage = (sheet: Handout) =>
  blocksOf(sheet, 'callout').flatMap((block) => (block.tone === 'first' ? [block] : []));
const calls = (sheet: Handout) =>
  blocksOf(sheet, 'callout').filter(({ tone }) => tone === 'warning');
const listsOf = (sheet: Handout) => [
  ...blocksOf(sheet, 'list').map(({ items }) => items),
  ...blocksOf(sheet, 'callout').map(({ said }) => said),
];
const every = (fits: (sheet: Handout) => boolean): number =>
  Number(sheets.every(({ sheet }) => fits(sheet)));

const PASSIVE =
  /\b(?:is|are|was|were|be|been|being)\s+(?:not\s+)?(?:\w{3,}ed|given|taken|made|done|seen|told|held|left|shown|woken)\b/i;
const activeShare = (texts: readonly string[]): number =>
  texts.filter((text) => !PASSIVE.test(text)).length / texts.length;
const texts = (sheet: Handout) =>
  sentencesOf(passagesOf(sheet.blocks), 'en').map(({ text }) => text);

const figuresOf = (sheet: Handout) => [
  ...mainMessage(sheet).flatMap(({ picture }) => picture ?? []),
  ...blocksOf(sheet, 'figure'),
  ...blocksOf(sheet, 'table').flatMap(({ rows }) =>
    rows.flat().flatMap((cell) => (cell.kind !== 'said' && cell.figure ? [cell.figure] : [])),
  ),
];
const captioned = every((sheet) => {
  const figures = figuresOf(sheet);
  return figures.length > 0 && figures.every(({ caption }) => readText(caption) !== '');
});
/** The wound as it should and should not look, and a syringe for each liquid. */
const drawn = Number(
  sheets.every(({ sheet, liquids }) => {
    const names = figuresOf(sheet).map(({ name }) => name);
    return (
      names.includes('wound-good') &&
      names.includes('wound-bad') &&
      names.filter((name) => name.startsWith('syringe-')).length === liquids.length
    );
  }),
);
const sheetText = ({ blocks }: Handout) => textOf(blocks);
/** A text of the sheet's own language. */
const labelled = ({ language }: Handout, key: string) =>
  (demo.content.languages.get(language) as Language).owner.text(key);
const opensWithMessage = (sheet: Handout) => {
  const [first] = everyBlock(sheet.blocks);
  return first?.kind === 'callout' && first.tone === 'first';
};
const summaryOf = (sheet: Handout) =>
  blocksOf(sheet, 'callout').find(({ title }) => title === labelled(sheet, 'short.title'));
const explained = Number(
  sheets.every(({ reading }) =>
    reading.warnings.every(({ found }) => !found.includes('without its explanation')),
  ),
);
const actions = every((sheet) => mainMessage(sheet).length > 0 && calls(sheet).length > 0);

const COMPUTED: Readonly<Record<Instrument, Readonly<Record<number, number | null>>>> = {
  cdc: {
    1: every((sheet) => mainMessage(sheet).length === 1),
    2: every((sheet) => opensWithMessage(sheet)),
    3: every((sheet) => mainMessage(sheet).every(({ title }) => title !== '')),
    4: every((sheet) =>
      mainMessage(sheet).every(({ picture }) => picture && readText(picture.caption) !== ''),
    ),
    5: actions,
    6: Number(
      english.every(
        (sheet) =>
          activeShare([...mainMessage(sheet), ...calls(sheet)].map(({ title }) => title)) === 1 &&
          activeShare(mainMessage(sheet).flatMap(({ said }) => said.map(readText))) === 1,
      ),
    ),
    7: explained,
    8: every(
      (sheet) => listsOf(sheet).length >= 6 && listsOf(sheet).every((items) => items.length <= 7),
    ),
    9: Number(
      sheets.every(
        ({ sheet, note }) =>
          note === null || sheetText(sheet).includes(`${labelled(sheet, 'done.note')}\n${note}`),
      ),
    ),
    10: every((sheet) => {
      const head = sheet.sender.join(' ').replaceAll('\u00a0', ' ');
      return (
        opensWithMessage(sheet) &&
        summaryOf(sheet) !== undefined &&
        TELEPHONES.every((number) => head.includes(number))
      );
    }),
    11: every((sheet) => sheetText(sheet).includes(labelled(sheet, 'plan.unknown'))),
    14: every((sheet) => calls(sheet).length > 0 && blocksOf(sheet, 'table').length > 0),
  },
  understandability: {
    3: Number(
      sheets.every(({ reading }) => reading.level?.measures.every(({ fits }) => fits) ?? false),
    ),
    4: explained,
    5: Number(english.every((sheet) => activeShare(texts(sheet)) >= 0.8)),
    8: every((sheet) =>
      passagesOf(sheet.blocks).every((said) => sentencesOf([said], 'en').length <= 9),
    ),
    9: every((sheet) => blocksOf(sheet, 'heading').length >= 5),
    11: every((sheet) => {
      const points = summaryOf(sheet)?.said.length ?? 0;
      return points >= 3 && points <= 7;
    }),
    12: every(
      (sheet) =>
        blocksOf(sheet, 'callout').length >= 2 &&
        passagesOf(sheet.blocks).some(({ runs }) => runs.some(({ strong }) => strong)),
    ),
    15: drawn,
    17: captioned,
    19: every((sheet) =>
      blocksOf(sheet, 'table').every(
        ({ columns }) =>
          columns.length <= 3 && columns.every(({ title }) => title.split(/\s+/).length <= 8),
      ),
    ),
  },
  actionability: {
    20: actions,
    23: every((sheet) =>
      blocksOf(sheet, 'table').some(({ rows }) => rows.flat().some(({ kind }) => kind === 'ticks')),
    ),
    26: drawn,
  },
};

describe.each(['cdc', 'understandability', 'actionability'] as const)(
  'docs/plain-language-scores.md, %s',
  (instrument) => {
    const rows = rowsOf(instrument);

    it('has each item of the instrument', () => {
      const all = {
        cdc: [1, 20],
        understandability: [1, 19],
        actionability: [20, 26],
      }[instrument] as [number, number];
      const items = Array.from({ length: all[1] - all[0] + 1 }, (_, index) => all[0] + index);
      const audiovisual = instrument === 'understandability' ? [13, 14] : [];
      expect(rows.map(({ item }) => item)).toEqual(
        items.filter((item) => !audiovisual.includes(item)),
      );
    });

    it('adds up as the instrument does', () => {
      const scored = rows.filter(({ score }) => score !== null);
      const points = scored.reduce((sum, { score }) => sum + (score ?? 0), 0);
      expect(TABLES[instrument]).toContain(
        `Points: ${points} of ${scored.length}. Total: ${Math.round((100 * points) / scored.length)}.`,
      );
    });

    it('scores what a program can judge as the sheets are', () => {
      const computed = rows.filter(({ judged }) => judged === 'computed');
      expect(computed.map(({ item }) => item)).toEqual(
        Object.keys(COMPUTED[instrument]).map(Number),
      );
      expect(Object.fromEntries(computed.map(({ item, score }) => [item, score]))).toEqual(
        COMPUTED[instrument],
      );
    });
  },
);

it('finds the passive voice', () => {
  expect(activeShare(['The dose was given.', 'It is not joined.', 'Give the dose.'])).toBeCloseTo(
    1 / 3,
  );
});

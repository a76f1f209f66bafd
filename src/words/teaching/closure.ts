import type { PublicWound } from '../../privacy/public-facts.js';
import type { Block, Cell } from '../handout.js';
import type { Language } from '../language.js';
import { plain } from '../markdown.js';
import { decimals } from '../numbers.js';
import type { LearnerSection } from './learner-section.js';

type Layer = PublicWound['layers'][number];

/** How the wound was closed, what holds it and for how long; nothing where the patient died. */
export const closurePart: LearnerSection = ({ wound }, language) =>
  wound === null ? [] : closed(wound, language);

function closed(wound: PublicWound, language: Language): Block[] {
  const { learner, trade } = language;
  const open = wound.healing.value === 'left open';
  const skin = wound.skin.value;
  return [
    { kind: 'heading', level: 2, text: learner.text('wound.title') },
    {
      kind: 'paragraph',
      said: learner.say(
        open ? 'wound.open' : 'wound.edges',
        {
          gap: decimals(wound.edgeGap.value, 1),
          tension: trade.text(`tension.${wound.tension.value}.learner`),
        },
        'wound.healing',
        'wound.edgeGap',
        'wound.tension',
      ),
    },
    ...(wound.estimate.value.by === 'filling in'
      ? [duration('wound.estimate', wound.estimate.value, language)]
      : []),
    ...layerTable(wound, language),
    ...(wound.drain ? [drain(wound.drain, language)] : []),
    ...(skin.kind === 'remove' ? [duration('wound.remove', skin, language, 'wound.skin')] : []),
  ];
}

function duration(
  key: string,
  { from, to, later }: { from: number; to: number; later: readonly string[] },
  language: Language,
  fact = key,
): Block {
  const reasons = later.map((reason) => reasonText(reason, language)).join(', ');
  const values = { from, to, later: later.length === 0 ? 'none' : 'some', reasons };
  return { kind: 'paragraph', said: language.learner.say(key, values, fact) };
}

function reasonText(reason: string, { learner, trade }: Language): string {
  if (reason === 'high tension') return trade.text('tension.high.learner');
  if (reason === 'edges apart') return learner.text('wound.apart');
  return trade.text(`slower healing.${reason}.learner`);
}

function drain(
  { what, after }: NonNullable<PublicWound['drain']>,
  { learner, trade }: Language,
): Block {
  const values = { drain: trade.text(`drains.${what}.learner`), after };
  return { kind: 'paragraph', said: learner.say('wound.drain', values, 'wound.drain') };
}

function layerTable({ layers }: PublicWound, language: Language): Block[] {
  if (layers.length === 0) return [];
  const { learner } = language;
  const column = (key: string, share: number) => ({
    title: learner.text(`wound.${key}`),
    align: 'start' as const,
    share,
  });
  const sources = [...new Set(layers.map(({ behaviour }) => behaviour.source))];
  return [
    {
      kind: 'table',
      caption: learner.text('wound.caption'),
      columns: [
        column('layer', 18),
        column('strand', 26),
        column('pattern', 16),
        column('holds', 22),
        column('gone', 18),
      ],
      rows: layers.map((layer, index) => row(layer, index, language)),
    },
    {
      kind: 'paragraph',
      said: learner.say('wound.sources', { sources: sources.join('; ') }, 'wound.layers'),
    },
  ];
}

function row(layer: Layer, index: number, language: Language): Cell[] {
  const { trade } = language;
  const fact = `wound.layers.${index}`;
  const cell = (text: string): Cell => ({ kind: 'said', said: [plain(text, fact)] });
  return [
    cell(trade.text(`layers.${layer.layer}.learner`)),
    cell(strand(layer, language)),
    cell(trade.text(`patterns.${layer.pattern}.learner`)),
    cell(strengthLeft(layer, language)),
    cell(absorbed(layer, language)),
  ];
}

function strand({ material, size, diameter }: Layer, { learner, trade }: Language): string {
  const name = trade.text(`materials.${material}.learner`);
  if (size === null || diameter === null) return name;
  const [from, to] = diameter;
  return `${name}, ${learner.text('wound.size', { size, from: `${from}`, to: `${to}` })}`;
}

function strengthLeft({ behaviour, hold }: Layer, language: Language): string {
  if (hold.kind !== 'while the strand lasts') return stays(hold, language);
  return behaviour.strength
    .map(({ day, left: [low, high] }) =>
      language.learner.text(low === high ? 'wound.strength' : 'wound.strengthRange', {
        low,
        high,
        day,
      }),
    )
    .join(', ');
}

function absorbed({ behaviour, hold }: Layer, language: Language): string {
  if (behaviour.absorbedBy === null) return stays(hold, language);
  const [from, to] = behaviour.absorbedBy;
  return language.learner.text(from === to ? 'wound.absorbed' : 'wound.absorbedRange', {
    from,
    to,
  });
}

function stays(hold: Layer['hold'], { learner }: Language): string {
  if (hold.kind === 'until it sheds') {
    return learner.text('wound.sheds', { from: hold.from, to: hold.to });
  }
  return learner.text(hold.kind === 'for good' ? 'wound.forGood' : 'wound.stays');
}

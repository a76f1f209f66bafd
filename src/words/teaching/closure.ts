import type { PublicFacts } from '../../privacy/public-facts.js';
import type { Cell } from '../handout.js';
import type { Language } from '../language.js';
import { plain } from '../markdown.js';
import { decimals } from '../numbers.js';
import type { LearnerSection } from './learner-section.js';

type Layer = PublicFacts['wound']['layers'][number];

/** How the wound was closed, what holds it and for how long. */
export const closurePart: LearnerSection = ({ wound }, language) => {
  const { learner, trade } = language;
  const open = wound.healing.value === 'left open';
  const skin = wound.skin.value;
  const sources = [...new Set(wound.layers.map(({ behaviour }) => behaviour.source))];
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
    ...(wound.layers.length === 0
      ? []
      : [
          {
            kind: 'table' as const,
            caption: learner.text('wound.caption'),
            columns: [
              { title: learner.text('wound.layer'), align: 'start' as const, share: 18 },
              { title: learner.text('wound.strand'), align: 'start' as const, share: 26 },
              { title: learner.text('wound.pattern'), align: 'start' as const, share: 16 },
              { title: learner.text('wound.holds'), align: 'start' as const, share: 22 },
              { title: learner.text('wound.gone'), align: 'start' as const, share: 18 },
            ],
            rows: wound.layers.map((layer, index) => row(layer, index, language)),
          },
          {
            kind: 'paragraph' as const,
            said: learner.say('wound.sources', { sources: sources.join('; ') }, 'wound.layers'),
          },
        ]),
    ...(skin.kind === 'remove'
      ? [
          {
            kind: 'paragraph' as const,
            said: learner.say(
              'wound.remove',
              {
                from: skin.from,
                to: skin.to,
                later: skin.later.length === 0 ? 'none' : 'some',
                reasons: skin.later
                  .map((reason) =>
                    reason === 'high tension'
                      ? trade.text('tension.high.learner')
                      : trade.text(`slower healing.${reason}.learner`),
                  )
                  .join(', '),
              },
              'wound.skin',
            ),
          },
        ]
      : []),
  ];
};

function row(layer: Layer, index: number, { learner, trade }: Language): Cell[] {
  const fact = `wound.layers.${index}`;
  const cell = (text: string): Cell => ({ kind: 'said', said: [plain(text, fact)] });
  const { strength, absorbedBy } = layer.behaviour;
  const size = layer.size === null ? '' : `, ${layer.size}`;
  return [
    cell(trade.text(`layers.${layer.layer}.learner`)),
    cell(`${trade.text(`materials.${layer.material}.learner`)}${size}`),
    cell(trade.text(`patterns.${layer.pattern}.learner`)),
    cell(
      strength.length === 0
        ? learner.text('wound.stays')
        : strength
            .map(({ day, left: [low, high] }) =>
              learner.text(low === high ? 'wound.strength' : 'wound.strengthRange', {
                low,
                high,
                day,
              }),
            )
            .join(', '),
    ),
    cell(
      absorbedBy === null
        ? learner.text('wound.stays')
        : learner.text(absorbedBy[0] === absorbedBy[1] ? 'wound.absorbed' : 'wound.absorbedRange', {
            from: absorbedBy[0],
            to: absorbedBy[1],
          }),
    ),
  ];
}

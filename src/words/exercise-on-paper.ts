import type { Asked, Block, ExerciseBlock } from './handout.js';
import { plain } from './markdown.js';

/** A question as it stands on paper, without its answer: text, figure, and lines to write on. */
export const onPaper = ({ title, question, figure, asks }: ExerciseBlock): Block[] => [
  { kind: 'heading', level: 3, text: title },
  ...question.map((said): Block => ({ kind: 'paragraph', said })),
  ...(figure ? [figure] : []),
  ...linesFor(asks),
];

/** Underscores: a line to write on, for those who read it aloud as well. */
const LINE = '__________';

function linesFor(asks: Asked): Block[] {
  const list = (texts: readonly string[]): Block => ({
    kind: 'list',
    ordered: false,
    items: texts.map((text) => plain(text)),
  });
  switch (asks.kind) {
    case 'numbers':
      return [list(asks.fields.map(({ label, unit }) => `${label}: ${LINE} ${unit}`))];
    case 'choice':
      return [list(asks.options.map(({ label }) => label))];
    case 'each':
      return [
        list(
          asks.items.map(
            ({ label }) => `${label}: ${asks.options.map((option) => option.label).join(' / ')}`,
          ),
        ),
      ];
  }
}

import { type IncisionPicture, incision } from '../../draw/incision.js';
import type { SkinClosure } from '../../draw/incision-wound.js';
import type { CaseFacts } from '../../facts/case-facts.js';
import type { Block } from '../handout.js';
import type { Language } from '../language.js';

type Looks = IncisionPicture['looks'];

/** The wound of the case as it should look, beside how it should not. */
export const incisionPictures = (facts: CaseFacts, language: Language): Block => ({
  kind: 'beside',
  left: [picture('good', facts, language)],
  right: [picture('bad', facts, language)],
});

function picture(looks: Looks, { wound }: CaseFacts, language: Language): Block {
  const { owner } = language;
  const closure = closureOf(wound);
  const labels = labelsOf(looks, closure, wound.drain !== null, language);
  return {
    kind: 'figure',
    name: `wound-${looks}`,
    figure: {
      kind: 'drawing',
      drawing: incision({
        looks,
        closure,
        drain: wound.drain !== null,
        title: owner.text(`picture.${looks}`),
        labels,
      }),
    },
    caption: owner.say(
      looks === 'good'
        ? 'picture.goodCaption'
        : `picture.badCaption.${closure === 'open' ? 'open' : 'joined'}`,
      {},
      'wound.skin',
    ),
    alternative: owner.text(`picture.${looks}Looks`, { labels: Object.values(labels).join('. ') }),
  };
}

function labelsOf(
  looks: Looks,
  closure: SkinClosure,
  drain: boolean,
  { owner }: Language,
): IncisionPicture['labels'] {
  const kind = closure === 'open' ? 'open' : 'joined';
  const word = (feature: 'edges' | 'around' | 'fluid') =>
    owner.text(`picture.${kind}.${looks}.${feature}`);
  const holder =
    closure === 'open'
      ? owner.text(`picture.open.${looks}.holder`)
      : owner.text(`picture.holder.${holderOf(closure)}.${looks}`);
  const seen = { holder, edges: word('edges'), around: word('around') };
  return looks === 'bad' || drain ? { ...seen, fluid: word('fluid') } : seen;
}

function holderOf(closure: Exclude<SkinClosure, 'open'>) {
  switch (closure) {
    case 'staples':
    case 'buried':
    case 'glue':
      return closure;
    default:
      return 'stitches';
  }
}

/** What the owner sees holding the skin. */
function closureOf(wound: CaseFacts['wound']): SkinClosure {
  if (wound.healing.value === 'left open') return 'open';
  const skin = wound.skin.value;
  if (skin.kind === 'shed') return 'glue';
  if (skin.kind === 'none' || (skin.kind === 'dissolve' && skin.hidden)) return 'buried';
  const seen = wound.layers.find(({ layer }) => layer === 'skin') ?? wound.layers.at(-1);
  if (seen?.material === 'stainless steel staples') return 'staples';
  if (seen?.layer === 'within the skin') return 'buried';
  if (seen?.pattern === 'cruciate') return 'crossed stitches';
  return seen?.pattern === 'simple continuous' ? 'running stitch' : 'stitches';
}

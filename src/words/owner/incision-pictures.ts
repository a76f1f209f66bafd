import type { Drawing } from '../../draw/drawing.js';
import type { SkinClosure } from '../../draw/incision/drawn-wound.js';
import { type IncisionPicture, incision } from '../../draw/incision/incision.js';
import type { HomeCase } from '../../facts/case-facts.js';
import type { Block } from '../handout.js';
import type { Language } from '../language.js';

type Looks = IncisionPicture['looks'];

/** The wound of the case as it should look, beside how it should not. */
export function incisionPictures(facts: HomeCase, language: Language): Block {
  const drawn = (looks: Looks) => draw(looks, facts, language);
  const [good, bad] = [drawn('good'), drawn('bad')];
  // Of one width, so that a page shows both at one scale.
  const width = Math.max(good.width, bad.width);
  return {
    kind: 'beside',
    left: [picture('good', { ...good, width }, facts, language)],
    right: [picture('bad', { ...bad, width }, facts, language)],
  };
}

const draw = (looks: Looks, { wound }: HomeCase, language: Language): Drawing =>
  incision({
    looks,
    closure: closureOf(wound),
    drain: wound.drain !== null,
    title: language.owner.text(`picture.${looks}`),
    labels: labelsOf(looks, closureOf(wound), wound.drain !== null, language),
  });

function picture(looks: Looks, drawing: Drawing, { wound }: HomeCase, language: Language): Block {
  const { owner } = language;
  const closure = closureOf(wound);
  const labels = labelsOf(looks, closure, wound.drain !== null, language);
  return {
    kind: 'figure',
    name: `wound-${looks}`,
    figure: { kind: 'drawing', drawing },
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
function closureOf(wound: HomeCase['wound']): SkinClosure {
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

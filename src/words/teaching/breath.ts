import { asLarge } from '../../signal/breath/chance.js';
import type { BreathLink } from '../../signal/breath/link.js';
import type { NormalVariant } from '../../signal/breath/normal-variant.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
import { type StripSection, titled } from './strip-section.js';

/** Whether the beats go with the breath, with the numbers that say so, or why it cannot be told. */
export const breathPart: StripSection = (facts, language, _figures, index) => {
  const analysis = facts.strips[index]?.analysis;
  if (!analysis) return [];
  const { learner } = language;
  return [
    {
      kind: 'heading',
      level: 3,
      text: titled(learner.text('breath.title'), facts, index, language),
    },
    ...[
      ...told(analysis.breath, `strips.${index}.analysis.breath`, learner),
      ...variant(analysis.variant, `strips.${index}.analysis.variant`, learner),
    ].map((said) => ({
      kind: 'paragraph' as const,
      said,
    })),
  ];
};

/** Whether the link is a normal variant, or the proofs that are missing. */
function variant(found: NormalVariant | null, fact: string, learner: Language['learner']): Said[] {
  if (found === null) return [];
  if (found.isNormalVariant) return [learner.say('breath.normalVariant', {}, fact)];
  const proofs = found.missing.map((proof) => learner.text(`breath.proofs.${proof}`)).join(', ');
  return [learner.say('breath.missing', { proofs }, fact)];
}

function told(link: BreathLink, fact: string, learner: Language['learner']): Said[] {
  const { verdict, doubt, breaths, follow, chance, swing } = link;
  if (verdict === 'not linked') return [learner.say('breath.notLinked', {}, fact)];
  if (verdict === 'cannot tell' || follow === null || chance === null) {
    const why = doubt === null ? '' : learner.text(`breath.doubts.${doubt}`);
    return [learner.say('breath.cannotTell', { why }, fact)];
  }
  return [
    learner.say(
      'breath.linked',
      {
        breaths,
        follow: decimals(follow * 100, 0),
        surrogates: chance.surrogates,
        matched: asLarge(chance),
        p: decimals(chance.follow, 3),
      },
      fact,
    ),
    ...(swing === null
      ? []
      : [
          learner.say(
            'breath.swing',
            {
              slowest: decimals(swing.slowestRate, 0),
              fastest: decimals(swing.fastestRate, 0),
            },
            fact,
          ),
        ]),
  ];
}

import { hasOtherBeats } from '../../facts/other-origin.js';
import type { Reason } from '../../signal/reason.js';
import type { StripAnalysis } from '../../signal/strip-analysis.js';
import type { Block } from '../handout.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
import { sayReason, sayReasons } from '../reason.js';
import { deciding, sayPlainly } from './deciding.js';
import { type StripSection, titled } from './strip-section.js';

type Found = StripAnalysis['rhythms'][number];

/** What the rhythm was in each stretch of the strip, with the reasons in numbers, or why it has no name. */
export const rhythmPart: StripSection = (facts, language, _figures, index) => {
  const analysis = facts.strips[index]?.analysis;
  if (!analysis) return [];
  const fact = `strips.${index}.analysis.rhythms`;
  return [
    {
      kind: 'heading',
      level: 3,
      text: titled(language.learner.text('rhythm.title'), facts, index, language),
    },
    ...analysis.rhythms.flatMap((found, place) => told(found, `${fact}.${place}`, language)),
    ...(hasOtherBeats(analysis)
      ? [{ kind: 'paragraph' as const, said: language.learner.say('rhythm.pulse', {}, fact) }]
      : []),
    { kind: 'paragraph', said: language.learner.say('rhythm.draft') },
  ];
};

function told(found: Found, fact: string, language: Language): Block[] {
  const { learner, rhythms } = language;
  const place = { from: decimals(found.from, 1), to: decimals(found.to, 1) };
  const reasons = (because: readonly Reason[], isNamed: boolean): Block[] => {
    const all = { reasons: sayReasons(because, language) };
    // Where no rhythm is named, each reason is a proof that is missing, the first as much as the others.
    const first = isNamed ? deciding(because) : because.slice(0, 3);
    if (first.length === because.length) {
      return [{ kind: 'paragraph', said: learner.say('rhythm.reasons', all, fact) }];
    }
    // A plain sentence says that a proof holds; where one is missing the measure alone is told.
    const say = isNamed ? sayPlainly : sayReasons;
    const decisive = { reasons: say(first, language) };
    return [
      {
        kind: 'paragraph',
        said: learner.say(isNamed ? 'rhythm.decisive' : 'rhythm.lacking', decisive, fact),
      },
      {
        kind: 'fold',
        small: true,
        title: learner.text('rhythm.all', { count: because.length }),
        blocks: [{ kind: 'paragraph', said: learner.say('rhythm.each', all, fact) }],
      },
    ];
  };
  if (found.confidence === null) {
    const key = found.name === 'not readable' ? 'rhythm.notReadable' : 'rhythm.cannotTell';
    const possible = found.possible
      .map((what) => language.reasons.text(`possible.${what}`))
      .join('; ');
    return [
      { kind: 'paragraph', said: learner.say(key, place, fact) },
      ...reasons(found.because, false),
      ...(possible === ''
        ? []
        : [
            {
              kind: 'paragraph' as const,
              said: learner.say('rhythm.possible', { possible }, fact),
            },
          ]),
    ];
  }
  return [
    {
      kind: 'paragraph',
      said: learner.say(
        'rhythm.named',
        {
          ...place,
          name: rhythms.text(`${found.name}.learner.name`),
          text: rhythms.text(`${found.name}.learner.text`),
          confidence: decimals(found.confidence * 100, 0),
        },
        fact,
      ),
    },
    ...reasons(found.because, true),
    ...(found.range === null
      ? []
      : [
          {
            kind: 'paragraph' as const,
            said: learner.say('rhythm.range', { range: sayReason(found.range, language) }, fact),
          },
        ]),
    ...found.within.flatMap((event): Block[] => [
      {
        kind: 'paragraph',
        said: learner.say(
          'rhythm.within',
          {
            name: rhythms.text(`${event.name}.learner.name`),
            text: rhythms.text(`${event.name}.learner.text`),
            count: event.beats.length,
          },
          fact,
        ),
      },
      ...reasons(event.because, true),
    ]),
  ];
}

import { hasOtherBeats } from '../../facts/other-origin.js';
import { DAY_TAKEN } from '../../facts/strip.js';
import type { PublicFacts } from '../../privacy/public-facts.js';
import type { StripAnalysis } from '../../signal/strip-analysis.js';
import type { Block, Said } from '../handout.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
import { inOnePassage } from '../owner/one-passage.js';
import { beatTable } from './beats.js';
import { relations, shownSaid } from './shown-rate.js';
import { type StripSection, titled, whichStrip } from './strip-section.js';

type Strip = PublicFacts['strips'][number];

/** The annotated strip, with what was found and what was withheld. */
export const stripPart: StripSection = (facts, language, figures, index) => {
  const strip = facts.strips[index];
  const drawn = figures.strips[index];
  if (!strip || !drawn) return [];
  const { learner } = language;
  const { analysis, lead, begins } = strip;
  const fact = `strips.${index}`;
  const duration = decimals(analysis.duration, 0);
  const table = beatTable(analysis, `${fact}.analysis`, language);
  return [
    {
      kind: 'heading',
      level: 2,
      text: titled(learner.text('strip.title'), facts, index, language),
    },
    {
      kind: 'figure',
      name: `strip-${index + 1}`,
      figure: drawn.figure,
      caption: inOnePassage([
        ...whichStrip(facts, index, language),
        learner.say(
          'strip.figure',
          { lead, seconds: decimals(drawn.seconds, 0), duration },
          `${fact}.lead`,
          `${fact}.analysis.duration`,
        ),
      ]),
      alternative: titled(
        learner.text('strip.alternative', { lead, beats: analysis.beats.length, duration }),
        facts,
        index,
        language,
      ),
      ...(table && {
        table: { ...table, caption: titled(table.caption, facts, index, language) },
      }),
    },
    paragraph(
      ...(begins.value === null
        ? []
        : [
            learner.say(
              begins.how === DAY_TAKEN ? 'strip.beginsUndated' : 'strip.begins',
              { minute: decimals(begins.value, 0) },
              `${fact}.begins`,
            ),
          ]),
      learner.say(
        'strip.counted',
        {
          beats: analysis.beats.length,
          duration,
          readable: decimals(analysis.quality.readable * 100, 0),
        },
        `${fact}.analysis`,
      ),
      ...unreadable(analysis, fact, learner),
    ),
    paragraph(learner.say('strip.marks', {}, `${fact}.analysis.beats`)),
  ];
};

function unreadable(analysis: StripAnalysis, fact: string, learner: Language['learner']): Said[] {
  return analysis.quality.spans
    .filter(({ readable }) => !readable)
    .map(({ from, to, why }) =>
      learner.say(
        'strip.unreadable',
        {
          from: decimals(from, 1),
          to: decimals(to, 1),
          why: learner.text(`strip.reasons.${why || 'noise'}`),
        },
        `${fact}.analysis.quality`,
      ),
    );
}

/** The counted rate, what a short window would have shown, and the displayed number beside it. */
export const ratePart: StripSection = (facts, language, _figures, index) => {
  const strip = facts.strips[index];
  if (!strip) return [];
  const title = titled(language.learner.text('strip.rateTitle'), facts, index, language);
  return [
    { kind: 'heading', level: 2, text: title },
    ...counted(strip, `strips.${index}`, language),
    ...shown(strip, `strips.${index}`, language),
  ];
};

function counted({ analysis }: Strip, fact: string, { learner }: Language): Block[] {
  const { rate } = analysis;
  if (rate === null) return [paragraph(learner.say('strip.notReadable', {}, `${fact}.analysis`))];
  const { shortWindow } = rate;
  return [
    paragraph(
      learner.say('strip.mean', { rate: decimals(rate.mean, 1) }, `${fact}.analysis.rate.mean`),
      learner.say(
        'strip.intervals',
        {
          shortest: decimals(rate.shortest * 1000, 0),
          fastest: decimals(60 / rate.shortest, 0),
          longest: decimals(rate.longest * 1000, 0),
          slowest: decimals(60 / rate.longest, 0),
        },
        `${fact}.analysis.rate.shortest`,
        `${fact}.analysis.rate.longest`,
      ),
    ),
    paragraph(
      ...(shortWindow === null
        ? []
        : [
            learner.say(
              'strip.window',
              {
                window: decimals(shortWindow.window, 0),
                low: decimals(shortWindow.low, 0),
                high: decimals(shortWindow.high, 0),
              },
              `${fact}.analysis.rate.shortWindow`,
            ),
          ]),
      howLong(rate, `${fact}.analysis.rate`, learner),
    ),
  ];
}

/** How long to count: advised is the time from which every longer one serves as well. */
function howLong(
  { longEnough, steadyFrom }: NonNullable<StripAnalysis['rate']>,
  fact: string,
  learner: Language['learner'],
): Said {
  if (longEnough === null) return learner.say('strip.tooShort', {}, `${fact}.longEnough`);
  const key =
    steadyFrom === null ? 'onlySome' : steadyFrom === longEnough ? 'longEnough' : 'steadyFrom';
  return learner.say(
    `strip.${key}`,
    { seconds: decimals(longEnough, 0), steady: decimals(steadyFrom ?? 0, 0) },
    `${fact}.longEnough`,
    `${fact}.steadyFrom`,
  );
}

function shown(
  { shown: displayed, analysis }: Strip,
  fact: string,
  { learner }: Language,
): Block[] {
  if (displayed.value === null) {
    const why = learner.text(`strip.unknown.${displayed.why}`);
    return [paragraph(learner.say('strip.shownUnknown', { why }, `${fact}.shown`))];
  }
  const { tToR } = displayed.value;
  return [
    paragraph(
      ...shownSaid(displayed.value, `${fact}.shown`, learner),
      ...(relations(displayed.value).includes('about double') && tToR !== null
        ? [learner.say('strip.tallT', { share: decimals(tToR * 100, 0) }, `${fact}.shown`)]
        : []),
    ),
    paragraph(
      ...(hasOtherBeats(analysis) ? [learner.say('rhythm.pulse', {}, `${fact}.analysis`)] : []),
      learner.say('strip.doNext'),
      learner.say('strip.tolerance'),
    ),
  ];
}

const paragraph = (...said: readonly Said[]): Block => ({
  kind: 'paragraph',
  said: inOnePassage(said),
});

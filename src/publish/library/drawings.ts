import type { Drawing } from '../../draw/drawing.js';
import { closureSection } from '../../draw/explain/closure-section.js';
import { countedTwice } from '../../draw/explain/counted-twice.js';
import { edges } from '../../draw/explain/edges.js';
import { heartBeat } from '../../draw/explain/heart-beat.js';
import { paperBoxes } from '../../draw/explain/paper-boxes.js';
import { pressureWave } from '../../draw/explain/pressure-wave.js';
import type { FigureBlock } from '../../words/handout.js';
import type { Phrasebook } from '../../words/phrasebook.js';

type Say = (word: string) => string;

/** The drawings that a page of the library may ask for by name, each with its words from `library.yaml`. */
export const DRAWINGS = {
  'heart beat': (say) => heartBeat({ p: say('p'), qrs: say('qrs'), t: say('t'), pr: say('pr') }),
  'pressure wave': (say) =>
    pressureWave({
      systolic: say('systolic'),
      mean: say('mean'),
      diastolic: say('diastolic'),
      time: say('time'),
    }),
  edges: (say) => edges({ long: say('long'), short: say('short') }),
  'closure layers': (say) =>
    closureSection({
      skin: say('skin'),
      within: say('within'),
      under: say('under'),
      sheet: say('sheet'),
      muscle: say('muscle'),
      lining: say('lining'),
    }),
  'paper boxes': (say) =>
    paperBoxes({
      smallBox: say('smallBox'),
      smallWorth: say('smallWorth'),
      largeBox: say('largeBox'),
      largeWorth: say('largeWorth'),
      millivolt: say('millivolt'),
      interval: say('interval'),
      rate: say('rate'),
    }),
  'counted twice': (say) => countedTwice({ shown: say('shown'), true: say('true') }),
} as const satisfies Readonly<Record<string, (say: Say) => Drawing>>;

export type DrawingName = keyof typeof DRAWINGS;

/** A drawing in the words of a language, with its caption and its text alternative. */
export function drawn(name: DrawingName, words: Phrasebook): FigureBlock {
  const key = (part: string) => `drawings.${name}.${part}`;
  return {
    kind: 'figure',
    name: name.replaceAll(' ', '-'),
    figure: { kind: 'drawing', drawing: DRAWINGS[name]((word) => words.text(key(word))) },
    caption: words.say(key('caption')),
    alternative: words.text(key('alternative')),
  };
}

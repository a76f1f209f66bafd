import type { PublicFacts } from '../../privacy/public-facts.js';
import type { Said } from '../handout.js';
import type { Language } from '../language.js';
import { decimals } from '../numbers.js';
import type { LearnerSection } from './learner-section.js';

/** Questions that the record itself poses; each is asked only where the record holds what is needed to answer it. */
export const questionsPart: LearnerSection = (facts, language) => [
  { kind: 'heading', level: 2, text: language.learner.text('student.title') },
  {
    kind: 'list',
    ordered: true,
    items: [
      ...aboutPressure(facts, language),
      ...aboutRate(facts, language),
      ...aboutSensors(facts, language),
      ...aboutDoses(facts, language),
    ],
  },
];

function aboutPressure({ vitals }: PublicFacts, { learner }: Language): Said[] {
  const readings = (name: string) =>
    vitals.channels.find(({ channel }) => channel === name)?.patient ?? [];
  const diastolic = new Map(readings('diastolic').map(({ minute, value }) => [minute, value]));
  const both = readings('systolic').filter(({ minute }) => diastolic.has(minute));
  const middle = both[Math.floor(both.length / 2)];
  return middle
    ? [
        learner.say(
          'student.pressureMean',
          {
            minute: decimals(middle.minute, 0),
            systolic: decimals(middle.value, 0),
            diastolic: decimals(diastolic.get(middle.minute) as number, 0),
          },
          'vitals.channels',
        ),
        learner.say('student.lowest', {}, 'vitals.channels'),
      ]
    : [];
}

function aboutRate({ strips }: PublicFacts, { learner }: Language): Said[] {
  const strip = strips.find(({ analysis }) => analysis.rate !== null && analysis.duration >= 12);
  if (!strip) return [];
  return [
    learner.say('student.count6', {}, 'strips'),
    ...(strip.shown.value === null ? [] : [learner.say('student.trust', {}, 'strips')]),
  ];
}

function aboutSensors({ vitals }: PublicFacts, { learner }: Language): Said[] {
  return vitals.channels.some(({ apart }) => apart.length > 0)
    ? [learner.say('student.apart', {}, 'vitals.channels')]
    : [];
}

function aboutDoses({ anesthesia, patient }: PublicFacts, { learner }: Language): Said[] {
  return anesthesia.drugs.some(({ perKilogram }) => perKilogram !== null)
    ? [
        learner.say(
          'student.dose',
          { weight: decimals(patient.roundedWeight, 1) },
          'anesthesia.drugs',
          'patient.roundedWeight',
        ),
      ]
    : [];
}

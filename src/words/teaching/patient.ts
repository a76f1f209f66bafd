import type { Said } from '../handout.js';
import { plain } from '../markdown.js';
import { decimals } from '../numbers.js';
import type { LearnerSection } from './learner-section.js';

/** Signalment and setting, as far as they may be told. */
export const patientPart: LearnerSection = (facts, { learner, trade, procedures }) => {
  const { patient, anesthesia } = facts;
  const row = (label: string, value: Said): readonly [string, Said] => [
    learner.text(`patient.${label}`),
    value,
  ];
  const breathing = trade.text(`breathing names.${anesthesia.breathing}.learner`);
  const sex = patient.sex && `${patient.sex}${patient.neutered ? ' neutered' : ''}`;
  return [
    { kind: 'heading', level: 2, text: learner.text('patient.title') },
    {
      kind: 'pairs',
      rows: [
        row('case', plain(facts.pseudonym, 'pseudonym')),
        row('species', trade.say(`species.${patient.species}.learner`, {}, 'patient.species')),
        ...(patient.breed === null ? [] : [row('breed', plain(patient.breed, 'patient.breed'))]),
        ...(patient.ageBand === null
          ? []
          : [row('age', learner.say(`age.${patient.ageBand}`, {}, 'patient.ageBand'))]),
        ...(sex === null
          ? []
          : [row('sex', trade.say(`sex.${sex}.learner`, {}, 'patient.sex', 'patient.neutered'))]),
        row(
          'weight',
          learner.say(
            'patient.weightValue',
            { weight: decimals(patient.roundedWeight, 1) },
            'patient.roundedWeight',
          ),
        ),
        ...(facts.region === null ? [] : [row('region', plain(facts.region, 'region'))]),
        row('procedure', procedures.say(`${facts.procedure}.learner.name`, {}, 'procedure')),
        ...(facts.surgeryMinutes === null
          ? []
          : [
              row(
                'duration',
                learner.say(
                  'patient.durationValue',
                  { minutes: decimals(facts.surgeryMinutes, 0) },
                  'surgeryMinutes',
                ),
              ),
            ]),
        row(
          'anesthesia',
          learner.say(
            'patient.anesthesiaValue',
            { minutes: decimals(anesthesia.minutes, 0) },
            'anesthesia.minutes',
          ),
        ),
        row(
          'breathing',
          anesthesia.ventilatorRate === null
            ? plain(breathing, 'anesthesia.breathing')
            : learner.say(
                'patient.ventilatorValue',
                { breathing, rate: decimals(anesthesia.ventilatorRate, 1) },
                'anesthesia.ventilatorRate',
              ),
        ),
        ...(anesthesia.maintenance === null
          ? []
          : [row('maintenance', plain(anesthesia.maintenance, 'anesthesia.maintenance'))]),
      ],
    },
  ];
};

/** What the procedure is and why it is done. */
export const procedurePart: LearnerSection = ({ procedure, patient }, { learner, procedures }) => [
  { kind: 'heading', level: 2, text: learner.text('procedure.title') },
  {
    kind: 'paragraph',
    said: procedures.say(`${procedure}.learner.text`, { species: patient.species }, 'procedure'),
  },
];

import type { PublicFacts } from '../../privacy/public-facts.js';
import type { Block, Cell } from '../handout.js';
import type { Language } from '../language.js';
import { plain } from '../markdown.js';
import { decimals } from '../numbers.js';
import type { LearnerSection } from './learner-section.js';

const cell = (text: string, ...facts: string[]): Cell => ({
  kind: 'said',
  said: [plain(text, ...facts)],
});

/** The events on the table, numbered as in the vitals figure. */
export const eventsPart: LearnerSection = (facts, language) => {
  const table = eventTable(facts, language);
  return table.length === 0
    ? []
    : [{ kind: 'heading', level: 2, text: language.learner.text('events.title') }, ...table];
};

/** The same without a heading; nothing where the record names no event. */
export const eventTable = (
  { anesthesia }: Pick<PublicFacts, 'anesthesia'>,
  { learner, trade }: Language,
): Block[] =>
  anesthesia.events.length === 0
    ? []
    : [
        {
          kind: 'table',
          caption: learner.text('events.caption'),
          columns: [
            { title: learner.text('events.number'), align: 'end', share: 7 },
            { title: learner.text('events.minute'), align: 'end', share: 11 },
            { title: learner.text('events.what'), align: 'start', share: 30 },
            { title: learner.text('events.note'), align: 'start', share: 52 },
          ],
          rows: anesthesia.events.map(({ minute, what, note }, index) => [
            cell(String(index + 1)),
            cell(decimals(minute, 0), `anesthesia.events.${index}.minute`),
            cell(trade.text(`events.${what}.learner`), `anesthesia.events.${index}.what`),
            cell(note ?? '', `anesthesia.events.${index}.note`),
          ]),
        },
      ];

/** The drugs by time, per kilogram so that no weight is needed to read them. */
export const drugsPart: LearnerSection = ({ anesthesia }, { learner, trade }) =>
  anesthesia.drugs.length === 0
    ? []
    : [
        { kind: 'heading', level: 2, text: learner.text('drugs.title') },
        {
          kind: 'table',
          caption: learner.text('drugs.caption'),
          columns: [
            { title: learner.text('drugs.minute'), align: 'end', share: 12 },
            { title: learner.text('drugs.drug'), align: 'start', share: 30 },
            { title: learner.text('drugs.dose'), align: 'start', share: 28 },
            { title: learner.text('drugs.route'), align: 'start', share: 30 },
          ],
          rows: anesthesia.drugs.map(
            ({ drug, route, minute, perKilogram: { value, unit }, isFluid }, index) => [
              cell(decimals(minute, 0), `anesthesia.drugs.${index}.minute`),
              cell(drug, `anesthesia.drugs.${index}.drug`),
              cell(
                learner.text(unit === 'mL' && !isFluid ? 'drugs.volume' : 'drugs.perKilogram', {
                  dose: value,
                  unit,
                }),
                `anesthesia.drugs.${index}.perKilogram`,
              ),
              cell(trade.text(`clinic routes.${route}.learner`), `anesthesia.drugs.${index}.route`),
            ],
          ),
        },
      ];

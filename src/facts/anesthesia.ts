import { type ClinicDose, rowInClinic, whyNotChecked } from '../care/dose-check/formulary-row.js';
import { checkGiven } from '../care/dose-check/in-the-clinic.js';
import { usualVentilation } from '../care/usual-ventilation.js';
import { MOST_AT_ONCE } from '../care/usual-volume.js';
import type { CaseText } from '../record/case-schema.js';
import type { Formulary } from '../record/formulary-schema.js';
import type { Species } from '../record/vocabulary.js';
import type { Located } from '../record/yaml-file.js';
import type { Kilogram } from '../units/brands.js';
import { toMilligram } from '../units/convert.js';
import { roundTo } from '../units/round.js';
import { asked, partOf, type Question } from './asked.js';
import type { AnesthesiaFacts, DrugGiven } from './case-facts.js';
import { computed, type Fact, notKnown, recorded } from './fact.js';
import { isFluid } from './fluids.js';
import { minutePrecision, type Timeline } from './timeline.js';

/** Begin, duration (minutes), breathing, drugs with what they were checked against, and events of the anesthesia. */
export function anesthesiaFacts(
  { value, where }: Located<CaseText>,
  time: Timeline,
  weight: Fact<Kilogram>,
  formulary: Formulary | null,
): AnesthesiaFacts {
  const { anesthesia } = value;
  const field = (name: string) => where('anesthesia', name);
  const rate = anesthesia['ventilator rate'];
  const minute = (written: string) => time.minuteOf(time.local(written));
  return {
    begin: recorded(minutePrecision(time.begin.toPlainDateTime()), field('begin')),
    duration: computed(
      minute(anesthesia.end),
      'end less begin, in minutes',
      field('begin'),
      field('end'),
    ),
    breathing: recorded(anesthesia.breathing, field('breathing')),
    ventilatorRate: rate
      ? recorded(rate.value, field('ventilator rate'))
      : notKnown('The record states no ventilator rate.'),
    maintenance: anesthesia.maintenance
      ? recorded(anesthesia.maintenance, field('maintenance'))
      : notKnown('The record does not say what kept the patient asleep.'),
    drugs: anesthesia.drugs
      .map((drug, index): DrugGiven => {
        const { dose } = drug;
        const perKilogram: DrugGiven['perKilogram'] =
          dose.unit === 'mL'
            ? notKnown('The record gives a volume without its strength.')
            : computed(
                toMilligram(dose.value, dose.unit) / weight.value,
                'milligrams over kilograms of body weight',
                where('anesthesia', 'drugs', index, 'dose'),
                ...weight.from,
              );
        const given = { drug: drug.drug, route: drug.route, perKilogram: perKilogram.value };
        return {
          drug: drug.drug,
          amount: dose,
          route: drug.route,
          minute: minute(drug.at),
          perKilogram,
          isFluid: isFluid(drug.drug),
          volumePerKilogram:
            dose.unit === 'mL'
              ? computed(
                  dose.value / weight.value,
                  'millilitres over kilograms of body weight',
                  where('anesthesia', 'drugs', index, 'dose'),
                  ...weight.from,
                )
              : null,
          checked: checkedFact(formulary, given, value.patient.species),
        };
      })
      .sort((a, b) => a.minute - b.minute),
    events: [...value.events, ...surgeryEvents(value)]
      .map((event) => ({ minute: minute(event.at), what: event.what, note: event.note ?? null }))
      .sort((a, b) => a.minute - b.minute),
  };
}

/** The first incision and the end of surgery, which the record may tell under `surgery` alone. */
function surgeryEvents({ surgery, events }: CaseText): CaseText['events'] {
  return (
    [
      ['first incision', surgery.begin],
      ['end of surgery', surgery.end],
    ] as const
  ).flatMap(([what, at]) =>
    at === undefined || events.some((event) => event.what === what) ? [] : [{ at, what }],
  );
}

function checkedFact(
  formulary: Formulary | null,
  given: ClinicDose,
  species: Species,
): DrugGiven['checked'] {
  const row = rowInClinic(formulary, given, species);
  if (row.kind === 'not checked') return notKnown(whyNotChecked(row));
  if (row.kind === 'never') return notKnown(`The formulary bans it: ${row.why}`);
  return computed(
    row.dose,
    'dose against the row of the clinic’s own formulary',
    'formulary.yaml',
    row.source,
  );
}

/** What a veterinarian is asked about the doses that were given in the clinic, fluids and the ventilator. */
export function anesthesiaWarnings(
  { value, at }: Located<CaseText>,
  weight: Fact<Kilogram>,
  formulary: Formulary | null,
): Question[] {
  const { drugs } = value.anesthesia;
  const given = drugs.map(({ drug, dose, route }) => ({
    drug,
    route,
    perKilogram: dose.unit === 'mL' ? null : toMilligram(dose.value, dose.unit) / weight.value,
  }));
  return [
    ...checkGiven(formulary, value.patient.species, given).map(
      ({ dose, field, kind, ...said }): Question => ({
        ...at('anesthesia', 'drugs', dose, field),
        ...said,
        ...asked(kind, partOf.drug(value, dose)),
      }),
    ),
    ...fluidWarnings({ value, at }, weight),
    ...ventilatorWarnings({ value, at }, weight),
  ];
}

type Asked = Pick<Located<CaseText>, 'value' | 'at'>;

/** Fluids by volume: nothing of them stands in a formulary, and a slipped digit drowns a small patient. */
function fluidWarnings({ value, at }: Asked, weight: Fact<Kilogram>): Question[] {
  const { species } = value.patient;
  const most = MOST_AT_ONCE[species];
  return value.anesthesia.drugs.flatMap(({ drug, dose }, index): Question[] => {
    const perKilogram = dose.value / weight.value;
    if (dose.unit !== 'mL' || !isFluid(drug) || perKilogram <= most) return [];
    return [
      {
        ...asked(
          'more fluid than is given at one time',
          partOf.drug(value, index),
          'Mend the amount or the weight',
        ),
        ...at('anesthesia', 'drugs', index, 'dose'),
        found: `${dose.written} of ${drug}, ${roundTo(perKilogram, 1)} mL/kg`,
        expected: `at most ${most} mL/kg at one time for a ${species} (from memory, unverified)`,
      },
    ];
  });
}

function ventilatorWarnings({ value, at }: Asked, weight: Fact<Kilogram>): Question[] {
  const rate = value.anesthesia['ventilator rate'];
  if (!rate) return [];
  const { species } = value.patient;
  const [least, most] = usualVentilation(species, weight.value);
  if (rate.value >= least && rate.value <= most) return [];
  return [
    {
      ...asked('a rate that no ventilator gives', partOf.patient(value), 'Mend the rate'),
      ...at('anesthesia', 'ventilator rate'),
      found: `${rate.written} for a ${species} of ${roundTo(weight.value, 2)} kg`,
      expected: `${least} to ${most} breaths/min (from memory, unverified)`,
    },
  ];
}

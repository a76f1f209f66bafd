import type { CaseText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import type { Kilogram } from '../units/brands.js';
import { toMilligram } from '../units/convert.js';
import type { AnesthesiaFacts, DrugGiven } from './case-facts.js';
import { computed, type Fact, notKnown, recorded } from './fact.js';
import { isFluid } from './fluids.js';
import { minutePrecision, type Timeline } from './timeline.js';

/** Begin, duration (minutes), breathing, drugs and events of the anesthesia. */
export function anesthesiaFacts(
  { value, where }: Located<CaseText>,
  time: Timeline,
  weight: Fact<Kilogram>,
): AnesthesiaFacts {
  const { anesthesia } = value;
  const field = (name: string) => where('anesthesia', name);
  const rate = anesthesia['ventilator rate'];
  const minute = (written: string) => time.minuteOf(time.local(written));
  return {
    begin: recorded(minutePrecision(time.begin), field('begin')),
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
        return {
          drug: drug.drug,
          amount: dose,
          route: drug.route,
          minute: minute(drug.at),
          perKilogram:
            dose.unit === 'mL'
              ? notKnown('The record gives a volume without its strength.')
              : computed(
                  toMilligram(dose.value, dose.unit) / weight.value,
                  'milligrams over kilograms of body weight',
                  where('anesthesia', 'drugs', index, 'dose'),
                  ...weight.from,
                ),
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
        };
      })
      .sort((a, b) => a.minute - b.minute),
    events: value.events
      .map((event) => ({ minute: minute(event.at), what: event.what, note: event.note ?? null }))
      .sort((a, b) => a.minute - b.minute),
  };
}

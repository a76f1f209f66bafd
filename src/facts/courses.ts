import { type CourseStep, courseSteps } from '../care/dose-check/course-step.js';
import { drugClass } from '../care/drug-class.js';
import type { HomeText } from '../record/case-schema.js';
import type { Formulary } from '../record/formulary-schema.js';
import type { Located } from '../record/yaml-file.js';
import { computed, type Fact } from './fact.js';
import type { HomePlan } from './medicine.js';
import { supplyOf } from './supplies.js';

/** What of a medicine follows from the other medicines of the case. */
export interface InCourse {
  /** Where it stands among the steps of one drug; left out of a course of one step. */
  readonly step?: Fact<CourseStep & { readonly mayStop: boolean }>;
  /** Whether some of what was handed out is left after the last dose that is given from it; left out where it is not over, or nothing tells. */
  readonly leftOver?: Fact<boolean>;
}

/** The same for each medicine of a case. @param formulary tells an NSAID, which the owner is told to stop at its first harm */
export function coursesOf(
  { value, where }: Located<HomeText>,
  formulary: Formulary | null,
  plans: readonly HomePlan[],
): InCourse[] {
  const { medicines } = value.home;
  const planned = plans.map((plan) => plan.planned);
  const steps = courseSteps(planned);
  const field = (index: number, name: string) => where('home', 'medicines', index, name);
  const lastOf = (index: number) => planned[index]?.doses.at(-1)?.epochMilliseconds ?? 0;
  return planned.map(({ drug, purpose }, index): InCourse => {
    const step = steps[index];
    const supply = supplyOf(medicines, index);
    const ends = supply.steps.every((other) => lastOf(other) <= lastOf(index));
    const isLast =
      ends && supply.steps.findLast((other) => lastOf(other) === lastOf(index)) === index;
    return {
      ...(step && {
        step: computed(
          {
            ...step,
            mayStop:
              drugClass(formulary, drug) === 'NSAID' || purpose.startsWith('pain and swelling'),
          },
          'the medicines of the same drug by the hours of their doses, none begun before the one before it is over',
          field(index, 'drug'),
          field(index, 'doses'),
        ),
      }),
      ...(isLast &&
        supply.handed !== null && {
          leftOver: computed(
            supply.needed === null || supply.handed > supply.needed,
            'what was handed out for all steps of this medicine and strength, less what their doses need',
            ...supply.steps.flatMap((other) => [field(other, 'give'), field(other, 'doses')]),
            ...supply.told.map((other) => field(other, 'dispensed')),
          ),
        }),
    };
  });
}

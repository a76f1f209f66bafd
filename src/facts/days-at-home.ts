import { Temporal } from 'temporal-polyfill';
import type { HomeText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import { roundTo } from '../units/round.js';
import { asked, partOf, type Question } from './asked.js';
import type { HomeFacts, PlanFacts, WoundFacts } from './case-facts.js';
import type { Timeline } from './timeline.js';

/** Days in the clinic after which a discharge is rather of another month or year. Own choice, not a clinical number. */
const LONGEST_STAY = 21;

/** Days after surgery after which a visit or a result is rather a slip of its number. Own choice, not a clinical number. */
const FARTHEST_DAY = 366;

type Path = readonly (string | number)[];

/** A stay of weeks, and days of the sheet that are over before the owner reads it or lie more than a year ahead. */
export function stayWarnings(
  { value, at }: Located<HomeText>,
  time: Timeline,
  wound: WoundFacts,
  home: HomeFacts,
  { softUntil }: PlanFacts,
): Question[] {
  const homeAt = time.local(value.surgery.discharge);
  const homeOn = homeAt.toPlainDate().toString();
  const stay = time.local(value.anesthesia.end).until(homeAt).total('days');
  const day = (path: Path, what: string, on: string | null | undefined) =>
    on ? [{ path, what, on }] : [];
  const days = [
    ...home.rechecks.flatMap(({ what, on }, index) =>
      day(['home', 'rechecks', index, 'after'], `a visit (${what})`, on.value),
    ),
    ...home.awaited.flatMap(({ expected }, index) =>
      day(['home', 'awaited', index, 'after'], 'a result', expected.value),
    ),
    ...day(['closure', 'drain', 'out after'], 'the drain out', wound.drain?.on.value),
    ...day(['home', 'collar'], 'the last day of the collar', home.collarUntil.value),
    ...day(['home', 'rest'], 'the last day of rest', home.restUntil.value),
    ...(value.home['soft food']
      ? day(['home', 'soft food'], 'the last day of soft food', softUntil?.value)
      : []),
  ];
  const farthest = Temporal.PlainDate.from(value.surgery.date)
    .add({ days: FARTHEST_DAY })
    .toString();
  return [
    ...(stay > LONGEST_STAY
      ? [
          {
            ...asked('a long stay in the clinic', partOf.home(value)),
            ...at('surgery', 'discharge'),
            found: `home ${roundTo(stay, 1)} days after the end of anesthesia`,
            expected: `at most ${LONGEST_STAY} days`,
          },
        ]
      : []),
    ...days
      .filter(({ on }) => on < homeOn || on > farthest)
      .map(
        ({ path, what, on }): Question => ({
          ...asked('a day that is not one at home', partOf.home(value)),
          ...at(...path),
          found: `${what} on ${on}`,
          expected:
            on < homeOn
              ? `a day not before ${homeOn}, when the patient goes home`
              : `a day at most ${FARTHEST_DAY} days after the surgery`,
        }),
      ),
  ];
}

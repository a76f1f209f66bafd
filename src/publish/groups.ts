import { type Grouped, isWide, smallGroups, type Told } from '../privacy/small-groups.js';
import type { Clinic } from '../record/clinic-schema.js';
import type { Problem } from '../record/problem.js';
import type { Known } from './steps/survey.js';

/** What the decision on one case rests on. */
export type Groupable = Pick<Known, 'name' | 'traits' | 'cleared' | 'telling'>;

/** How much is told of each case that may be public. */
export interface Groups {
  readonly of: ReadonlyMap<string, Grouped>;
  /** Cases whose author's words tell what may not be told; nothing of them is public, and they hide nobody. */
  readonly undecided: readonly { readonly name: string; readonly problems: readonly Problem[] }[];
}

/**
 * Decides over all cases whose words may be public how much of each is told. A title that names the breed tells it, so a
 * case whose words tell more than its group allows is taken out, and the groups are made anew without it.
 */
export function decideGroups(cases: readonly Groupable[], least: number): Groups {
  const undecided: { name: string; problems: readonly Problem[] }[] = [];
  for (;;) {
    const out = new Set(undecided.map(({ name }) => name));
    const left = cases.filter(({ name, cleared }) => cleared && !out.has(name));
    const of = smallGroups(new Map(left.map(({ name, traits }) => [name, traits])), least);
    const telling = left.flatMap(({ name, telling }) => {
      const told = of.get(name)?.told;
      const problems = told ? overtold(telling, told) : [];
      return problems.length > 0 ? [{ name, problems }] : [];
    });
    if (telling.length === 0) return { of, undecided };
    undecided.push(...telling);
  }
}

/** What of the words of a case tells more than may be told. */
function overtold(telling: Known['telling'], { breed, ageBand, sex }: Told): readonly Problem[] {
  if (telling === null) return [];
  return [
    ...(breed === null ? telling.breed : []),
    ...(ageBand === null || isWide(ageBand) ? telling.age : []),
    ...(sex ? [] : telling.sex),
  ];
}

/** How well published cases hide among one another, for the clinic and for the public page. */
export interface GroupsReport {
  /** The size of group that the clinic asks for. */
  readonly least: number;
  /** Why fewer than five are enough; null where it asks for five or more. */
  readonly because: string | null;
  /** The smallest group that there is; null where nothing is published. */
  readonly smallest: number | null;
  /** Each combination that is told, with how many cases tell it, the fewest first. */
  readonly alike: readonly { readonly group: number; readonly what: string }[];
  /** Cases of which less is told than others tell, or nothing. */
  readonly reduced: readonly { readonly name: string; readonly what: string }[];
}

export function groupsReport(
  clinic: Clinic,
  groups: Groups['of'],
  cases: readonly Pick<Known, 'name' | 'traits'>[],
): GroupsReport {
  const { 'at least': least, because } = clinic['small groups'];
  const alike = new Map<string, number>();
  for (const { name, traits } of cases) {
    const told = groups.get(name)?.told;
    if (!told) continue;
    const what = [
      traits.species,
      told.breed ?? 'no breed',
      told.ageBand === null ? 'no age' : `${told.ageBand} years`,
      told.sex ? traits.sex : 'no sex',
      traits.procedure,
      traits.region ?? 'no region',
    ].join(', ');
    alike.set(what, (alike.get(what) ?? 0) + 1);
  }
  const sizes = [...groups.values()].flatMap(({ told, group }) => (told ? [group] : []));
  return {
    least,
    because: because ?? null,
    smallest: sizes.length === 0 ? null : Math.min(...sizes),
    alike: [...alike]
      .map(([what, group]) => ({ group, what }))
      .sort((a, b) => a.group - b.group || (a.what < b.what ? -1 : 1)),
    reduced: [...groups].flatMap(([name, { told }]) => {
      const what = reductionOf(told);
      return what === null ? [] : [{ name, what }];
    }),
  };
}

function reductionOf(told: Told | null): string | null {
  if (told === null) return 'withheld, as it stands apart whatever is left out';
  if (!told.sex) return 'breed, age and sex left out';
  if (told.ageBand === null) return 'breed and age left out';
  if (isWide(told.ageBand)) return 'breed left out, age told in a wider band';
  return told.breed === null ? 'breed left out' : null;
}

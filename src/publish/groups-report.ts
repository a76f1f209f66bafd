import type { Grouped, Told } from '../privacy/small-groups.js';
import type { Clinic } from '../record/clinic-schema.js';

/** How well published cases hide among one another, for the clinic and for the public page. */
export interface GroupsReport {
  /** The size of group that the clinic asks for. */
  readonly least: number;
  /** Why fewer than five are enough; null where it asks for five or more. */
  readonly because: string | null;
  /** The smallest group that there is; null where nothing is published. */
  readonly smallest: number | null;
  /** Cases of which less is told than others tell, or nothing. */
  readonly reduced: readonly { readonly name: string; readonly what: string }[];
}

export function groupsOf(clinic: Clinic, groups: ReadonlyMap<string, Grouped>): GroupsReport {
  const { 'at least': least, because } = clinic['small groups'];
  const sizes = [...groups.values()].flatMap(({ told, group }) => (told ? [group] : []));
  return {
    least,
    because: because ?? null,
    smallest: sizes.length === 0 ? null : Math.min(...sizes),
    reduced: [...groups].flatMap(([name, { told }]) => {
      const what = reductionOf(told);
      return what === null ? [] : [{ name, what }];
    }),
  };
}

function reductionOf(told: Told | null): string | null {
  if (told === null) return 'withheld, as it stands apart whatever is left out';
  if (!told.sex) return 'age and sex left out';
  if (told.ageBand === null) return 'age left out';
  return /^(under 4|4 or more)$/.test(told.ageBand) ? 'age told in a wider band' : null;
}

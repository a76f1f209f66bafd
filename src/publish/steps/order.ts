import type { Grouped } from '../../privacy/small-groups.js';
import { type KeyedHash, veilOf } from '../../privacy/veil.js';
import type { Order } from './produce.js';
import type { Surveyed } from './survey.js';

/** The order for a case, as far as enough others tell the same of their patients. */
export function orderFor(
  { name, record, loaded }: Surveyed,
  folder: string,
  hash: KeyedHash | null,
  groups: ReadonlyMap<string, Grouped>,
): Order {
  const told = groups.get(name)?.told ?? null;
  return { name, folder, loaded, veil: hash && told ? { ...veilOf(record, hash), told } : null };
}

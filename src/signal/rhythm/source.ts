/** Where a limit was read; a limit without a published source says so. */
export type Source =
  | { readonly kind: 'published'; readonly where: string }
  | { readonly kind: 'common practice' }
  | { readonly kind: 'from memory, unverified' };

/** A criterion of the trade that no publication is named for. */
export const COMMON_PRACTICE: Source = { kind: 'common practice' };
/** A criterion that was not read again where it was published. */
export const FROM_MEMORY: Source = { kind: 'from memory, unverified' };

/** Ranges of awake dogs and cats, lead II. */
export const RANGE_TABLE: Source = {
  kind: 'published',
  where: 'Small Animal Internal Medicine, 6th ed., Table 2.4',
};

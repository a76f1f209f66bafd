/** Whose organs each procedure opens or takes out, by its key in content/. Common practice. */
const OF_ONE_SEX: ReadonlyMap<string, 'female' | 'male'> = new Map([
  ['spay', 'female'],
  ['infected womb removal', 'female'],
  ['cesarean section', 'female'],
  ['castration', 'male'],
]);

/** A patient as far as it can be neutered. */
export interface Neuterable {
  readonly sex: 'female' | 'male';
  /** Before this surgery. */
  readonly neutered: boolean;
}

/** What of a patient does not fit the procedure; none where it fits, or where the procedure is one for both sexes. */
export function misfits(
  procedure: string,
  { sex, neutered }: Neuterable,
): readonly (
  | { readonly kind: 'sex'; readonly expected: 'female' | 'male' }
  | { readonly kind: 'neutered' }
)[] {
  const meant = OF_ONE_SEX.get(procedure);
  if (meant === undefined) return [];
  return [
    ...(sex === meant ? [] : [{ kind: 'sex', expected: meant } as const]),
    ...(neutered ? [{ kind: 'neutered' } as const] : []),
  ];
}

/** Net QRS areas (or heights) of one beat in lead I and one other limb lead, in one unit. */
export interface LimbPair {
  readonly I: number;
  readonly other: number;
  readonly lead: 'II' | 'III' | 'aVF';
}

/** The part of the QRS vector along lead I (right to left) and downwards (head to foot). */
export interface FrontalVector {
  readonly left: number;
  readonly down: number;
}

/**
 * The vector in the frontal plane from lead I and another. Leads I, II and III lie at 0, 60 and 120
 * degrees and see a vector at full strength: II = I/2 + down sqrt(3)/2, and III = II - I. aVF lies at
 * 90 degrees and, as aVF = (II + III)/2, sees sqrt(3)/2 of it; hence the factor 2/sqrt(3). That the
 * factor is needed, and the forms arctan((2 II - I) / (sqrt(3) I)) and arctan(2 aVF / (sqrt(3) I)),
 * were read in the abstract of Novosel et al. on the corrected formula (names from memory, unverified).
 */
export function frontalVector({ I, other, lead }: LimbPair): FrontalVector {
  const root3 = Math.sqrt(3);
  switch (lead) {
    case 'aVF':
      return { left: I, down: (2 / root3) * other };
    case 'II':
      return { left: I, down: (2 * other - I) / root3 };
    case 'III':
      return { left: I, down: (I + 2 * other) / root3 };
  }
}

/** Degrees from lead I (0) clockwise: +90 points to the feet, -90 to the head; over -180 to 180. */
export const axisDegrees = ({ left, down }: FrontalVector): number =>
  (Math.atan2(down, left) * 180) / Math.PI;

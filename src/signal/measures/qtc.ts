/**
 * QT corrected for rate after Fridericia: QT / RR^(1/3), both in s. A human rule. Of three rules it
 * left least of the rate in dogs with heart failure, Van de Water's in healthy dogs (abstract in the
 * Thai Journal of Veterinary Medicine 44(1), article 15).
 */
export const qtcFridericia = (qt: number, rr: number): number => qt / Math.cbrt(rr);

/**
 * QT corrected for rate after Van de Water: QT - 0.087 (RR - 1), both in s. For dogs. The formula, as
 * QTcV = QT + 0.087 (1 - RR), was read in the abstract of "QT interval in healthy dogs: which method of
 * correcting the QT interval in dogs is appropriate for use in small animal clinics?" (Pesquisa
 * Veterinária Brasileira), which found it the steadiest of three in 130 dogs.
 */
export const qtcVanDeWater = (qt: number, rr: number): number => qt - 0.087 * (rr - 1);

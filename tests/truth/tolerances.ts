import type { Edge } from './judge.js';

/**
 * Two standard deviations between expert readers of human ECGs, ms. Source: see `TOLERANCES_SOURCE`.
 */
export const TOLERANCES: Readonly<Record<Edge, number>> = {
  'P onset': 10.2,
  'P end': 12.7,
  'QRS onset': 6.5,
  'QRS end': 11.6,
  'T end': 30.6,
};

export const TOLERANCES_SOURCE =
  'The CSE Working Party, "Recommendations for measurement standards in quantitative electrocardiography", Eur Heart J 6(10):815-825 (1985), for human ECGs, as used by Martínez JP and others, "A wavelet-based ECG delineator: evaluation on standard databases", IEEE Trans Biomed Eng 51(4):570-581 (2004). The numbers were taken from works that quote the two; the papers themselves were not at hand.';

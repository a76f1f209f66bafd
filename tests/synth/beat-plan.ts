/** Species that have a lead II template. */
export type Species = 'dog' | 'cat' | 'rabbit';

/**
 * Where a beat comes from. `supraventricular` is any narrow beat from above the ventricles that the
 * sinus node did not start on time (premature, re-entrant, or let through from fibrillating atria);
 * `junctional` is a narrow escape beat. There are no paced beats.
 */
export type BeatKind = 'sinus' | 'supraventricular' | 'junctional' | 'ventricular';

export type WaveName = 'P' | 'Q' | 'R' | 'S' | 'T';

/** One bell-shaped deflection of a beat, as seen in lead II. */
export interface Wave {
  /** mV in lead II, negative for a downward wave. */
  readonly amplitude: number;
  /** Seconds from the R peak (or, for a P wave without a beat, from its own planned time). */
  readonly centre: number;
  /** Gaussian standard deviation before the peak, s. */
  readonly rise: number;
  /** Gaussian standard deviation after the peak, s. */
  readonly fall: number;
}

export interface PlannedBeat {
  /** Centre of the R wave, s from the first sample. */
  readonly time: number;
  readonly kind: BeatKind;
  /** Null where no P wave leads to this beat. */
  readonly P: Wave | null;
  readonly Q: Wave | null;
  readonly R: Wave;
  readonly S: Wave | null;
  readonly T: Wave | null;
}

/** A P wave that no QRS follows, or that marches on without regard to the QRS (AV block). */
export interface LonePWave {
  /** Centre of the wave, s from the first sample. */
  readonly time: number;
  readonly wave: Wave;
}

export interface Breath {
  /** Start of inspiration, s from the first sample. */
  readonly time: number;
  /** Length of inspiration, s. */
  readonly inspiration: number;
}

/** One component of an electrical activity that has no beats: fibrillating atria or ventricles. */
export interface Ripple {
  /** mV in lead II. */
  readonly amplitude: number;
  /** Hz. */
  readonly frequency: number;
  /** Radians at time 0. */
  readonly phase: number;
}

/** All that happens in a recording, before it is drawn: the list is the truth. */
export interface BeatPlan {
  readonly species: Species;
  /** s. */
  readonly duration: number;
  /** In ascending time. */
  readonly beats: readonly PlannedBeat[];
  readonly lonePWaves: readonly LonePWave[];
  readonly ripples: readonly Ripple[];
  readonly breaths: readonly Breath[];
}

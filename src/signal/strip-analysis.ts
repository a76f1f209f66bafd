export interface StripAnalysis {
  readonly samplingRate: number;
  readonly duration: number;
  readonly quality: {
    readable: number;
    spans: readonly { from: number; to: number; readable: boolean; why: string }[];
  };
  readonly beats: readonly { time: number; kind: string | null; p: null; qrs: null; t: null }[];
  readonly rate: {
    mean: number;
    shortest: number;
    longest: number;
    shortWindow: { window: number; low: number; high: number } | null;
    longEnough: number | null;
  } | null;
  readonly rhythms: null;
}

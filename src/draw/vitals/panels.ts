import type { Inks } from '../inks.js';

/** What a series of readings measures. */
export type Measure =
  | 'systolic'
  | 'mean'
  | 'diastolic'
  | 'shownRate'
  | 'countedRate'
  | 'saturation'
  | 'endTidalCo2'
  | 'breaths'
  | 'temperature';

/** What a panel of the chart shows; each has a scale of its own. */
export type PanelName = 'pressure' | 'rate' | 'saturation' | 'breathing' | 'temperature';

/** A panel's share of the height, its usual scale (widened where readings go beyond) and the step of its numbers. */
export interface PanelShape {
  readonly weight: number;
  readonly low: number;
  readonly high: number;
  readonly step: number;
}

/**
 * Small panels over one time axis, from top to bottom. One crowded chart makes a reader ask which scale a line belongs
 * to; here each panel answers one question (is there pressure, how fast is the heart, is there oxygen, is there breath,
 * is there warmth) on a scale on which a change that matters can be seen. Saturation has its own: on a scale of 0-100
 * a fall from 97 to 90 would be the width of the pen. Carbon dioxide and breaths share one, since they are read together
 * and both live between 0 and 60. A panel without readings is left out. The usual scales are common practice.
 */
export const panelShapes: Readonly<Record<PanelName, PanelShape>> = {
  pressure: { weight: 3, low: 20, high: 160, step: 20 },
  rate: { weight: 2.2, low: 40, high: 180, step: 20 },
  saturation: { weight: 1.4, low: 80, high: 100, step: 5 },
  breathing: { weight: 2, low: 0, high: 60, step: 20 },
  temperature: { weight: 1.4, low: 35, high: 39, step: 1 },
};

/** How a line is told apart without colour: dash, marker and shade. */
export interface LineShape {
  readonly panel: PanelName;
  readonly dash: readonly number[];
  readonly marker: 'circle' | 'triangle' | 'rect' | 'rectRot';
  /** Degrees. */
  readonly turn: number;
  readonly ink: keyof Inks;
  /** CSS px, 1/96 inch. */
  readonly thick: number;
}

const long = [7, 3];
const dots = [1.5, 3];

/** How each measure is told from the others of its panel: by dashes, points and width, so that nothing rests on colour. */
export const lineShapes: Readonly<Record<Measure, LineShape>> = {
  systolic: shape('pressure', long, 'triangle', 180, 'ink', 1.1),
  mean: shape('pressure', [], 'circle', 0, 'accent', 2),
  diastolic: shape('pressure', dots, 'triangle', 0, 'ink', 1.3),
  shownRate: shape('rate', long, 'rect', 0, 'faint', 1.2),
  countedRate: shape('rate', [], 'circle', 0, 'accent', 2),
  saturation: shape('saturation', [], 'rectRot', 0, 'ink', 1.3),
  endTidalCo2: shape('breathing', [], 'rect', 0, 'ink', 1.3),
  breaths: shape('breathing', dots, 'circle', 0, 'faint', 1.5),
  temperature: shape('temperature', long, 'rectRot', 0, 'ink', 1.2),
};

function shape(
  panel: PanelName,
  dash: readonly number[],
  marker: LineShape['marker'],
  turn: number,
  ink: keyof Inks,
  thick: number,
): LineShape {
  return { panel, dash, marker, turn, ink, thick };
}

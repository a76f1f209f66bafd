import type { Inks } from '../inks.js';
import { lineShapes, type Measure, type PanelName, type PanelShape } from './panels.js';
import type { Flag } from './story.js';

interface ChartReading {
  /** Minutes since the start of anesthesia. */
  readonly minute: number;
  /** In the unit that the panel's title names; null where nothing was shown. */
  readonly value: number | null;
  /** The sensor was off the patient: the value is the room's. */
  readonly offPatient: boolean;
}

/** The readings of one measure as one line of the chart. */
export interface ChartSeries {
  readonly measure: Measure;
  /** Written at the end of the line. */
  readonly label: string;
  readonly readings: readonly ChartReading[];
}

/** A line through all panels, with its number in the list of events. */
export interface ChartEvent {
  readonly minute: number;
  readonly number: number;
  /** Written beside the number where there is room. */
  readonly label: string;
}

/** A stretch of the operation, drawn as a bar above the panels. */
export interface ChartPhase {
  readonly from: number;
  readonly to: number;
  readonly label: string;
  /** Drawn solid, under the others, with its name beside it. */
  readonly urgent: boolean;
}

/** A stretch of one panel that the text speaks of: from the first reading to the last that show it, shaded. */
export interface ChartEpisode {
  readonly panel: PanelName;
  readonly from: number;
  readonly to: number;
  /** The readings around it that do not show it: up to them it may reach, hatched. */
  readonly around: readonly [from: number, to: number];
  /** What shading and hatching mean, written beside the panel's title. */
  readonly label: string;
  readonly aroundLabel: string;
}

/** What the vitals chart shows; minutes from the start of anesthesia. */
export interface VitalsChart {
  readonly series: readonly ChartSeries[];
  readonly events: readonly ChartEvent[];
  readonly phases: readonly ChartPhase[];
  readonly episodes: readonly ChartEpisode[];
  /** Minutes since the start of anesthesia. */
  readonly minutes: readonly [from: number, to: number];
  readonly strings: ChartStrings;
}

interface ChartStrings {
  /** BCP 47, for the numbers of the axes. */
  readonly language: string;
  /** For example `Minutes since the start of anesthesia`. */
  readonly timeAxis: string;
  /** For example `off patient`. */
  readonly offPatient: string;
  /** Each with its unit, for example `Blood pressure, mmHg`. */
  readonly panels: Readonly<Record<PanelName, string>>;
}

/** One panel as it is drawn: its scale in the panel's unit, and the floor lane for readings that are not the patient's. */
export interface Panel {
  readonly name: PanelName;
  readonly shape: PanelShape;
  readonly low: number;
  readonly high: number;
  /** Where off-patient markers stand, below `low`; null when there are none. */
  readonly lane: number | null;
}

/** How a chart is drawn: how wide, in CSS px, and with which inks. */
export interface ChartDress {
  readonly width: number;
  readonly inks: Inks;
}

/** A chart with its dress, and where the flags of its events stand. */
export interface DressedChart extends VitalsChart, ChartDress {
  readonly flags: readonly Flag[];
}

/** Labels of the series of a panel that hold readings taken off the patient. */
export const offPatientLabels = (name: PanelName, series: readonly ChartSeries[]): string[] =>
  series
    .filter(
      ({ measure, readings }) =>
        lineShapes[measure].panel === name &&
        readings.some(({ offPatient, value }) => offPatient && value !== null),
    )
    .map(({ label }) => label);

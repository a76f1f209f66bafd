import { Chart, type ChartConfiguration, type ChartType } from 'chart.js/auto';
import type { Drawing } from '../draw/drawing.js';
import { CSS_PIXELS_PER_MM, RecordedCanvas } from './recorded-canvas.js';

/** The library puts edges on whole dots; as fine as three of them to a CSS pixel. */
const DENSITY = 3;

/**
 * A chart as a drawing of its true size. The size is cut to whole CSS pixels, so the drawing is at most 0.27 mm smaller than
 * asked and never wider.
 */
export function chartDrawing<T extends ChartType>(
  configuration: ChartConfiguration<T>,
  room: { readonly widthMm: number; readonly heightMm: number },
): Drawing {
  const width = Math.floor(room.widthMm * CSS_PIXELS_PER_MM);
  const height = Math.floor(room.heightMm * CSS_PIXELS_PER_MM);
  const canvas = new RecordedCanvas(width, height);
  const dressed = {
    ...configuration,
    // The library writes into what it is given.
    data: { ...configuration.data },
    options: { ...configuration.options, devicePixelRatio: DENSITY },
  };
  const chart = new Chart(canvas as never, dressed as unknown as ChartConfiguration);
  const marks = canvas.drawn();
  chart.destroy();
  if (marks.length === 0) throw new Error('the chart was not drawn');
  return { width: width / CSS_PIXELS_PER_MM, height: height / CSS_PIXELS_PER_MM, marks };
}

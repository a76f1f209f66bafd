import { type Canvas, GlobalFonts } from '@napi-rs/canvas';
import type { Chart, ChartConfiguration, ChartType } from 'chart.js';
import { ChartJSNodeCanvas } from 'chartjs-node-canvas';
import { family } from '../draw/inks.js';
import type { RasterImage } from '../words/handout.js';
import { demandGlyphs, faces } from './fonts.js';
import { type Dots, opaquePng } from './opaque-png.js';

/** CSS pixels in a millimetre. */
const cssPixel = 96 / 25.4;
/** A whole number, so that each chart pixel is a whole number of printed ones: 3 x 96 = 288 dots per inch. */
const density = 3;

let registered = false;

/** A place on paper. */
export interface Room {
  readonly widthMm: number;
  readonly heightMm: number;
}

/**
 * Renders a chart at its true size. The size is cut to whole CSS pixels, so the picture is at most 0.27 mm smaller than
 * asked and never wider; its true size is returned.
 */
export function chartImage<T extends ChartType>(
  configuration: ChartConfiguration<T>,
  room: Room,
): RasterImage {
  registerFaces();
  const { width, height } = wholePixels(room);
  const canvas = new ChartJSNodeCanvas({ width, height, backgroundColour: '#ffffff' });
  let dots: Dots | null = null;
  const taker = {
    id: 'taker',
    // The chart is thrown away with its canvas, and would be packed with an alpha channel before.
    afterRender({ canvas: drawn }: Chart): void {
      const { width, height } = drawn;
      dots = { width, height, rgba: (drawn as unknown as Canvas).data() };
      drawn.width = 1;
    },
  };
  const dressed = {
    ...configuration,
    // The library writes into what it is given.
    data: { ...configuration.data },
    options: { ...configuration.options, devicePixelRatio: density },
    plugins: [...(configuration.plugins ?? []), glyphGuard, taker],
  };
  canvas.renderToBufferSync(dressed as ChartConfiguration, 'image/png');
  if (dots === null) throw new Error('the chart was not drawn');
  return {
    bytes: opaquePng(dots),
    type: 'png',
    ...trueSize(room),
  };
}

const wholePixels = ({ widthMm, heightMm }: Room) => ({
  width: Math.floor(widthMm * cssPixel),
  height: Math.floor(heightMm * cssPixel),
});

/** The size at which a chart for some room is drawn. */
export function trueSize(room: Room): Room {
  const { width, height } = wholePixels(room);
  return { widthMm: width / cssPixel, heightMm: height / cssPixel };
}

/** Makes the product's own faces known to the canvas, once. */
export function registerFaces(): void {
  if (registered) return;
  for (const face of ['regular', 'bold'] as const) {
    if (!GlobalFonts.registerFromPath(faces[face], family)) {
      throw new Error(`the ${face} face could not be loaded from ${faces[face]}`);
    }
  }
  registered = true;
}

/** The canvas would fetch a missing glyph from a face of the machine, or draw an empty box; neither may pass unseen. */
const glyphGuard = {
  id: 'glyph-guard',
  beforeInit({ ctx }: Chart): void {
    const fillText = ctx.fillText.bind(ctx);
    ctx.fillText = (text: string, x: number, y: number, widest?: number) => {
      if (!ctx.font.includes(family)) throw new Error(`${text} is set in ${ctx.font}`);
      demandGlyphs(/\b(bold|700)\b/.test(ctx.font) ? 'bold' : 'regular', text);
      if (widest === undefined) fillText(text, x, y);
      else fillText(text, x, y, widest);
    };
  },
};

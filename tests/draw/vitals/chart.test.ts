import { describe, expect, it } from 'vitest';
import { textWidth } from '../../../src/draw/text-width.js';
import { vitalsChart } from '../../../src/draw/vitals/chart.js';
import { lineShapes } from '../../../src/draw/vitals/panels.js';
import { sampleVitals } from './sample.js';

const panelAxes = (config: ReturnType<typeof vitalsChart>) =>
  Object.keys(config.options?.scales ?? {}).filter((name) => name !== 'x' && !/-title$/.test(name));

const pointsOf = (set: { data: unknown } | undefined) =>
  (set?.data ?? []) as { x: number; y: number }[];

describe('the vitals chart', () => {
  it('has a panel for each kind of reading and none without readings', () => {
    const all = sampleVitals();
    expect(panelAxes(vitalsChart(all)).reverse()).toEqual([
      'pressure',
      'rate',
      'saturation',
      'breathing',
      'temperature',
    ]);
    const series = all.series.filter(({ measure }) => measure === 'mean');
    expect(panelAxes(vitalsChart({ ...all, series }))).toEqual(['pressure']);
    expect(() => vitalsChart({ ...all, series: [] })).toThrow('at least one reading');
  });

  it('gives no value of a sensor off the patient a height on the patient’s scale', () => {
    const chart = sampleVitals();
    const config = vitalsChart(chart);
    const sets = config.data.datasets.filter(({ yAxisID }) => yAxisID === 'temperature');
    const line = sets.find(({ showLine }) => showLine !== false);
    const apart = sets.find(({ showLine }) => showLine === false);
    const ys = (set: typeof line) => pointsOf(set).map(({ y }) => y);
    expect(
      ys(line)
        .filter(Number.isFinite)
        .every((y) => y > 35),
    ).toBe(true);
    expect(ys(line).slice(0, 3)).toEqual([Number.NaN, Number.NaN, Number.NaN]);
    expect(apart?.data).toHaveLength(3);
    expect(ys(apart).every((y) => y < 35)).toBe(true);
    expect(apart?.pointBackgroundColor).toBe('#ffffff');
  });

  it('leaves a gap where nothing was shown', () => {
    const config = vitalsChart(sampleVitals());
    const set = config.data.datasets.find(({ label }) => label === 'end-tidal CO2');
    const at55 = pointsOf(set).find(({ x }) => x === 55);
    expect(at55?.y).toBeNaN();
    expect(set?.spanGaps).toBe(false);
  });

  it('widens a scale that a reading of the patient leaves', () => {
    const chart = sampleVitals();
    const readings = [{ minute: 0, value: 205, offPatient: false }];
    const config = vitalsChart({
      ...chart,
      series: [{ measure: 'systolic', label: 'systolic', readings }],
    });
    expect(config.options?.scales?.pressure?.max).toBe(220);
  });

  it('leaves room at the right for the name of a channel that is not the patient’s', () => {
    const chart = sampleVitals();
    const room = (label: string) => {
      const readings = [
        { minute: 0, value: 12, offPatient: true },
        { minute: 75, value: 12, offPatient: true },
      ];
      const config = vitalsChart({
        ...chart,
        series: [{ measure: 'breaths', label, readings }],
      });
      return (config.options?.layout?.padding as { right: number } | undefined)?.right;
    };
    const long = 'breaths that a ventilator gave';
    expect(room(long)).toBeGreaterThan(12 + textWidth(long, 10));
    expect(room('b')).toBeGreaterThan(12 + textWidth(chart.strings.offPatient, 10));
  });

  it('counts the minutes in whole steps from the start, also before it', () => {
    const scale = vitalsChart({ ...sampleVitals(), minutes: [-33, 75] }).options?.scales?.x;
    const axis: { ticks: { value: number }[] } = { ticks: [] };
    scale?.afterBuildTicks?.(axis as never);
    const values = axis.ticks.map(({ value }) => value);
    expect(values).toEqual([-30, -20, -10, 0, 10, 20, 30, 40, 50, 60, 70]);
  });

  it('tells the lines of one panel apart without colour', () => {
    const looks = Object.values(lineShapes).map(({ panel, dash, marker, turn }) =>
      JSON.stringify([panel, dash, marker, turn]),
    );
    expect(new Set(looks).size).toBe(looks.length);
  });

  it('is the same for the same readings', () => {
    const text = () => JSON.stringify(vitalsChart(sampleVitals()));
    expect(text()).toBe(text());
  });
});

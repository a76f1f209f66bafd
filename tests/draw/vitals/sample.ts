import type { VitalsChart } from '../../../src/draw/vitals/chart-data.js';

const range = (from: number, to: number, step: number) =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step);

const readings = (of: (minute: number) => number | null, off: (minute: number) => boolean) =>
  range(0, 75, 5).map((minute) => ({
    minute,
    value: of(minute),
    offPatient: off(minute),
  }));

const never = () => false;
const wave = (minute: number, size: number) => Math.round(size * Math.sin(minute / 9));

/** An invented anesthetic of 75 minutes. */
export function sampleVitals(): VitalsChart {
  const dip = (minute: number) => (minute >= 30 && minute <= 45 ? 26 : 0);
  return {
    series: [
      {
        measure: 'systolic',
        label: 'systolic',
        readings: readings((m) => 112 + wave(m, 6) - dip(m), never),
      },
      {
        measure: 'mean',
        label: 'mean',
        readings: readings((m) => 82 + wave(m, 5) - dip(m), never),
      },
      {
        measure: 'diastolic',
        label: 'diastolic',
        readings: readings((m) => 62 + wave(m, 4) - dip(m), never),
      },
      {
        measure: 'shownRate',
        label: 'shown',
        readings: readings((m) => (m > 20 && m < 45 ? 168 : 84) + wave(m, 3), never),
      },
      {
        measure: 'countedRate',
        label: 'counted',
        readings: readings((m) => 84 + wave(m, 3), never),
      },
      {
        measure: 'saturation',
        label: 'SpO2',
        readings: readings(
          (m) => (m < 10 ? 61 : 97 + wave(m, 1)),
          (m) => m < 10,
        ),
      },
      {
        measure: 'endTidalCo2',
        label: 'end-tidal CO2',
        readings: readings((m) => (m === 55 ? null : 41 + wave(m, 4)), never),
      },
      { measure: 'breaths', label: 'breaths', readings: readings((m) => 12 + wave(m, 3), never) },
      {
        measure: 'temperature',
        label: 'temperature',
        readings: readings(
          (m) => (m < 15 ? 24.1 : 38 - m / 50),
          (m) => m < 15,
        ),
      },
    ],
    events: [
      { minute: 8, number: 1, label: 'induction' },
      { minute: 20, number: 2, label: 'first incision' },
      { minute: 22, number: 3, label: '' },
      { minute: 33, number: 4, label: 'bleeding' },
      { minute: 70, number: 5, label: 'extubation' },
    ],
    phases: [
      { from: 8, to: 20, label: 'preparation', urgent: false },
      { from: 20, to: 60, label: 'operation', urgent: false },
      { from: 33, to: 45, label: 'bleeding', urgent: true },
    ],
    episodes: [
      {
        panel: 'pressure',
        from: 30,
        to: 45,
        around: [25, 50],
        label: 'mean under 60',
        aroundLabel: 'perhaps',
      },
    ],
    minutes: [0, 75],
    strings: {
      language: 'en',
      timeAxis: 'Minutes since the start of anesthesia',
      offPatient: 'off patient',
      panels: {
        pressure: 'Blood pressure, mmHg',
        rate: 'Heart rate, beats/min',
        saturation: 'Oxygen saturation, %',
        breathing: 'End-tidal CO2, mmHg, and breaths/min',
        temperature: 'Temperature, °C',
      },
    },
  };
}

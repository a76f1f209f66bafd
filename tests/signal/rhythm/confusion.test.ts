import { expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { NORMAL } from '../../../src/signal/rhythm/rhythm.js';
import { NOISE_LEVELS, type NoiseKind, type NoiseLevel } from '../../synth/noise.js';
import { RHYTHMS, type RhythmName } from '../../synth/rhythms/index.js';
import { EXPECTED } from './expected.js';
import { patientOf, renderedLeads } from './strips.js';

const LEVELS: readonly NoiseLevel[] = ['mild', 'moderate', 'severe'];
/** By default one species, in turn, and one level a noise; all of them where `EVERY_NOISE` is set. */
const isWhole = process.env.EVERY_NOISE !== undefined;

/** Seconds of each planned rhythm under each name, over noises. */
function matrix(): Map<RhythmName, Map<string, number>> {
  const out = new Map<RhythmName, Map<string, number>>();
  for (const [r, name] of (Object.keys(RHYTHMS) as RhythmName[]).entries()) {
    const row = new Map<string, number>();
    out.set(name, row);
    for (const [k, kind] of (Object.keys(NOISE_LEVELS) as NoiseKind[]).entries()) {
      for (const [l, level] of LEVELS.entries()) {
        for (const [s, species] of (['dog', 'cat'] as const).entries()) {
          if (!isWhole && ((r + k) % 3 !== l || (r + k) % 2 !== s)) continue;
          const seed = 9901 + 7 * r + k;
          const plan = RHYTHMS[name]({ species, duration: 20, seed });
          const noise = { kind, amplitude: NOISE_LEVELS[kind][level] };
          const leads = renderedLeads(plan, seed, [noise]);
          const annotations = plan.breaths.map(({ time }) => ({
            onset: time as never,
            duration: null,
            text: 'breath',
          }));
          const { rhythms } = analyseStrip(leads, {
            patient: patientOf(species),
            breath: { annotations },
          });
          for (const found of rhythms) {
            row.set(found.name, (row.get(found.name) ?? 0) + found.to - found.from);
          }
        }
      }
    }
  }
  return out;
}

function printed(rows: ReturnType<typeof matrix>): string {
  return [...rows]
    .map(([name, row]) => {
      const all = [...row.values()].reduce((a, b) => a + b, 0);
      const cells = [...row]
        .sort((a, b) => b[1] - a[1])
        .map(([called, time]) => `${called} ${Math.round((100 * time) / all)} %`);
      return `${name.padEnd(30)}${cells.join(', ')}`;
    })
    .join('\n');
}

/** Told by a sinus node in part, so that a normal name of a part is right. */
const LED_BY_SINUS = (name: RhythmName) => NORMAL.some((normal) => normal === EXPECTED[name][0]);

/** Few breaths leave it open whether the beats follow them. */
const ALSO_RIGHT: Partial<Record<RhythmName, string>> = {
  'breath-linked-sinus': 'sinus arrhythmia',
};

it('names a rhythm under noise, or withholds it, and seldom takes it for another', () => {
  const rows = matrix();
  console.log(printed(rows));
  let told = 0;
  let wrong = 0;
  for (const [name, row] of rows) {
    for (const [called, time] of row) {
      if (called === 'cannot be told' || called === 'not readable') continue;
      told += time;
      if (called !== EXPECTED[name][0] && called !== ALSO_RIGHT[name]) wrong += time;
      if (!LED_BY_SINUS(name)) expect(NORMAL as readonly string[], name).not.toContain(called);
    }
  }
  expect(wrong / told).toBeLessThan(0.03);
}, 600_000);

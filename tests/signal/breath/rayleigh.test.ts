import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { rayleigh, rayleighP } from '../../../src/signal/breath/rayleigh.js';

describe("Rayleigh's test", () => {
  it('gives z 1.236 and p 0.304844 for the example of a public circular-statistics manual', () => {
    // pingouin.circ_rayleigh, documentation, first example.
    const milliradians = [785, 1570, 3141, 839, 5934];
    const test = rayleigh(milliradians.map((angle) => angle / (2000 * Math.PI)));
    expect(test.z).toBeCloseTo(1.236, 3);
    expect(test.p).toBeCloseTo(0.304844, 5);
  });

  it("gives Zar's worked example: mean 99 degrees, r 0.825, z 5.448, p between 0.001 and 0.002", () => {
    // Zar, Biostatistical Analysis, 5th ed. (2010), example 27.1 on the angles of example 26.2, as the tests of the
    // public library pycircstat2 (tests/test_hypothesis.py) quote it; mean and r also in the README of the public
    // repository olitroski/circular.
    const angles = [45, 55, 81, 96, 110, 117, 132, 154];
    const test = rayleigh(angles.map((degrees) => degrees / 360));
    expect(test.meanPhase * 360).toBeCloseTo(98.988, 3);
    expect(test.meanResultantLength).toBeCloseTo(0.825, 3);
    expect(test.z).toBeCloseTo(5.448, 3);
    expect(test.p).toBeGreaterThan(0.001);
    expect(test.p).toBeLessThan(0.002);
  });

  it.each([
    // Critical mean resultant lengths: Mardia (1972), as Table A.10 of Davis, Statistics and Data
    // Analysis in Geology.
    [6, 0.05, 0.69],
    [6, 0.01, 0.825],
    [10, 0.1, 0.478],
    [10, 0.05, 0.54],
    [10, 0.01, 0.655],
    [15, 0.05, 0.443],
    [20, 0.05, 0.385],
    [20, 0.01, 0.472],
    [23, 0.01, 0.441],
  ])('at n = %i gives p = %f for R = %f (Mardia 1972)', (n, p, length) => {
    expect(rayleighP(n, n * length) / p).toBeGreaterThan(0.95);
    expect(rayleighP(n, n * length) / p).toBeLessThan(1.05);
  });

  it('agrees with the exact distribution of the resultant, integrated by scipy', () => {
    const cases = [8, 12, 30, 90].flatMap((n) =>
      [1, 2, 3, 4.5, 6].map((z) => [n, Math.sqrt(n * z)] as const),
    );
    // P(Rn > r) = 1 - r * integral of J1(rt) J0(t)^n dt (Kluyver 1905; from memory, unverified:
    // the table above is the other check).
    const script = `
import json, sys, numpy as np
from scipy.special import j0, j1
from scipy.integrate import simpson
t = np.linspace(0, 400, 80001)
print(json.dumps([float(1 - r * simpson(j1(r * t) * j0(t) ** n, x=t)) for n, r in json.load(sys.stdin)]))`;
    const run = spawnSync('/usr/bin/python3', ['-c', script], {
      input: JSON.stringify(cases),
      encoding: 'utf8',
    });
    if (run.status !== 0) {
      console.log('Rayleigh p against scipy: not checked, python3 with scipy did not run here.');
      return;
    }
    const exact = JSON.parse(run.stdout) as number[];
    expect(exact).toHaveLength(cases.length);
    for (const [i, [n, r]] of cases.entries()) {
      expect(Math.abs(rayleighP(n, r) - (exact[i] as number))).toBeLessThan(0.001);
    }
  });

  it('has nothing to say of evenly spread phases, and tells the mean phase of gathered ones', () => {
    const even = rayleigh(Array.from({ length: 40 }, (_, i) => (i % 5) / 5));
    expect(even.meanResultantLength).toBeCloseTo(0, 10);
    expect(even.p).toBeCloseTo(1, 6);
    expect(rayleigh([0.9, 0.95, 0, 0.05]).meanPhase).toBeCloseTo(0.975, 10);
  });
});

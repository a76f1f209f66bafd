import { describe, expect, it } from 'vitest';
import { type Claims, collisions } from '../../src/publish/claims.js';

const claims = (name: string, more: Partial<Claims> = {}): Claims => ({
  name,
  file: `${name}/case.yaml`,
  record: name,
  patient: name,
  vitalsDigest: null,
  address: null,
  isPublished: false,
  places: {
    record: { file: name },
    address: { file: name },
    vitals: { file: `${name}/case.yaml`, line: 7 },
  },
  ...more,
});

describe('a vitals file that two cases have', () => {
  const digest = 'ab';
  it('is told of the second, where they are of two patients', () => {
    expect(
      collisions([
        claims('fern', { vitalsDigest: digest }),
        claims('moss', { vitalsDigest: digest }),
      ]),
    ).toMatchObject([
      {
        kind: 'readings of another patient',
        file: 'moss/case.yaml',
        line: 7,
        found: expect.stringContaining('that of fern in the case fern'),
      },
    ]);
  });

  it('may be of one patient with two operations, and empty ones are nobody’s', () => {
    const twice = { vitalsDigest: digest, patient: 'Fern' };
    expect(collisions([claims('fern', twice), claims('fern-2', twice)])).toEqual([]);
    expect(collisions([claims('fern'), claims('moss')])).toEqual([]);
  });
});

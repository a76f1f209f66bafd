import { afterAll, describe, expect, it } from 'vitest';
import { disk } from '../../src/publish/disk.js';
import { buildShard } from '../../src/publish/shard.js';
import { TestClinic } from './clinic.js';

const clinic = new TestClinic('clover');
afterAll(() => clinic.remove());

describe('a share of a collection', () => {
  it('may be without a case: more shares than cases are no fault', async () => {
    const made = await buildShard(
      {
        cases: clinic.folder,
        into: clinic.out,
        share: { index: 1, of: 2 },
        strict: true,
        threads: 0,
      },
      disk(() => undefined),
    );
    expect(made).toMatchObject({ ok: true, value: { built: [], failed: [] } });
  });

  it('may be without a public case', async () => {
    clinic.edit(
      'cases/clover/case.yaml',
      /^consent:\n(?: {2}.*\n)+/m,
      'consent:\n  teaching: { given: no }\n  record: { given: no }\n',
    );
    const made = await buildShard(
      {
        cases: clinic.folder,
        into: clinic.out,
        share: { index: 0, of: 1 },
        strict: false,
        threads: 0,
      },
      disk(() => undefined),
    );
    expect(made).toMatchObject({ ok: true, value: { built: ['clover'], failed: [] } });
  });
});

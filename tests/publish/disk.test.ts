import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { disk } from '../../src/publish/disk.js';
import { accepted } from '../record/sample.js';

const home = mkdtempSync(join(tmpdir(), 'disk-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));

it('gives plain bytes, which no key spells out as a list of numbers', () => {
  writeFileSync(join(home, 'wound.jpg'), 'some bytes');
  const bytes = accepted(disk(() => {}).readBytes(join(home, 'wound.jpg')));
  expect(Buffer.from(bytes).toString()).toBe('some bytes');
  expect(bytes).not.toHaveProperty('toJSON');
});

import { fileURLToPath } from 'node:url';
import { disk } from '../../src/publish/disk.js';
import { load } from '../../src/publish/load.js';
import { accepted } from '../record/sample.js';

/** The demonstration clinic with its cases, read from the disk. */
export const demo = accepted(
  load(
    fileURLToPath(new URL('../../demo-data', import.meta.url)),
    disk(() => {}),
  ),
);

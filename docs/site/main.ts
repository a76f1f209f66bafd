import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { house } from '../../src/publish/house.js';
import { writeDocs } from './write-docs.js';

const out = join(house.root, 'out-docs');
const declarations = join(house.root, '.thrice-docs', 'declarations');
if (existsSync(out)) rmSync(out, { recursive: true });
const { pages, mute } = await writeDocs(declarations, out);
console.log(`Wrote ${pages} pages: ${join(out, 'index.html')}`);
if (mute.length > 0) {
  console.log(`Without a docstring: ${mute.join('; ')}`);
}

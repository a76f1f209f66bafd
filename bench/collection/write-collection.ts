import { fileURLToPath } from 'node:url';
import { makeCollection } from './make-collection.js';

/** `node write-collection.js <count> <folder> [seed]`: a clinic with so many invented cases. */
const [count, folder, seed] = process.argv.slice(2);
if (!/^\d+$/.test(count ?? '') || folder === undefined) {
  console.error('npm run collection -- COUNT FOLDER [SEED]');
  process.exit(2);
}
const patterns = fileURLToPath(new URL('../../../demo-data', import.meta.url));
makeCollection(patterns, folder, Number(count), Number(seed ?? 1));
console.log(`${count} invented cases in ${folder}`);

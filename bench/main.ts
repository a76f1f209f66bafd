import { cpus } from 'node:os';
import { collection } from './collection/collection.js';
import { ownerSheet } from './publish/owner-sheet.js';
import type { Row } from './row.js';
import { signalAnalysis } from './signal/signal-analysis.js';

const ROWS: readonly Row[] = [signalAnalysis, ownerSheet, collection];

const asked = process.argv.slice(2);
console.log(`Node ${process.version}, ${cpus()[0]?.model ?? 'unknown processor'}`);
for (const row of ROWS) {
  if (asked.length > 0 && !asked.includes(row.name)) continue;
  console.log(`\n${row.title}`);
  for (const line of row.lines()) console.log(`  ${line}`);
}

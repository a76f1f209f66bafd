import { readdirSync, utimesSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Gives everything in a folder one time of change. What is kept from an earlier build would bear the hour in which its
 * case was first written, some days after surgery, and a server tells that hour to whoever asks for the page.
 */
export function atOneMoment(folder: string, moment: Date): void {
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    utimesSync(join(entry.parentPath, entry.name), moment, moment);
  }
  utimesSync(folder, moment, moment);
}

import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Takes over the last private sheets of cases that cannot be read now, and gives the names of those that had one. */
export function keepLastSheets(names: readonly string[], out: string, folder: string): string[] {
  return names.filter((name) => {
    const last = join(out, 'private', name);
    if (!existsSync(join(last, 'discharge.html'))) return false;
    cpSync(last, join(folder, 'private', name), { recursive: true });
    return true;
  });
}

/** The calendar files that went online with the last sheets of these cases stay: an owner may hold a code to them. */
export function keepLastCalendars(names: readonly string[], out: string, folder: string): void {
  const [last, next] = [join(out, 'calendars'), join(folder, 'calendars')];
  if (names.length === 0 || !existsSync(last)) return;
  const sheets = names
    .map((name) => join(out, 'private', name, 'discharge.ics'))
    .filter((file) => existsSync(file))
    .map((file) => readFileSync(file));
  for (const name of readdirSync(last)) {
    const bytes = readFileSync(join(last, name));
    if (!sheets.some((sheet) => sheet.equals(bytes)) || existsSync(join(next, name))) continue;
    mkdirSync(next, { recursive: true });
    writeFileSync(join(next, name), bytes);
  }
}

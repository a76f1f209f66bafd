import { createHash } from 'node:crypto';
import { hostname } from 'node:os';

/** Eight hexadecimal digits for this machine: an output may lie on a disk that several share. */
const machine = (): string => createHash('sha256').update(hostname()).digest('hex').slice(0, 8);

/** Marks a folder as one of this running program. */
export const ownMark = (): string => `${machine()}-${process.pid}`;

/** Whether the program that made a folder may still be at work; one of another machine always may. */
export function isAlive(name: string): boolean {
  const [, where, pid] = /^([0-9a-f]{8})-(\d+)-/.exec(name) ?? [];
  if (where !== machine()) return true;
  if (Number(pid) === process.pid) return true;
  try {
    process.kill(Number(pid), 0);
    return true;
  } catch (error) {
    // EPERM: there is such a program, of another user.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

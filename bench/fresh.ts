import { execFileSync } from 'node:child_process';

/**
 * Runs a compiled module in a process of its own, so that nothing is warm and peak memory is its alone.
 * It is given the arguments and prints one JSON value.
 */
export function inFreshProcess<T>(module: URL, args: readonly (string | number)[]): T {
  const printed = execFileSync(process.execPath, [module.pathname, ...args.map(String)], {
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  return JSON.parse(printed) as T;
}

/** CPU seconds of the whole process, all threads, that a task takes. */
export function cpuOf(task: () => void): number {
  const before = process.cpuUsage();
  task();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

/** Of this process so far, MB. */
export const peakMemory = (): number => process.resourceUsage().maxRSS / 1024;

import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { type IncomingMessage, request } from 'node:http';
import { program } from './thrice.js';

/** `thrice watch` in a process of its own. */
export interface Watched {
  readonly port: number;
  readonly child: ChildProcess;
  /** What it has said so far. */
  readonly said: () => string;
  /** CPU time that it has used so far, ms. */
  readonly cpu: () => number;
  /** Ends it by a signal, and gives its exit code. */
  readonly end: (signal?: NodeJS.Signals) => Promise<number | null>;
}

export const watching = (...words: string[]): Promise<Watched> => watchingBy(program, ...words);

/** The same by another copy of the program. */
export async function watchingBy(copy: string, ...words: string[]): Promise<Watched> {
  const child = spawn(process.execPath, [copy, 'watch', ...words], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  const ended = new Promise<number | null>((done) => child.on('close', done));
  const port = await new Promise<number>((resolve, reject) => {
    for (const stream of [child.stdout, child.stderr]) {
      stream.on('data', (text: Buffer) => {
        said += text;
        const found = /http:\/\/localhost:(\d+)\//.exec(said);
        if (found) resolve(Number(found[1]));
      });
    }
    child.on('close', () => reject(new Error(`it ended: ${said}`)));
  });
  return {
    port,
    child,
    said: () => said,
    cpu: () => cpuOf(child.pid as number),
    end: (signal = 'SIGTERM') => {
      child.kill(signal);
      return ended;
    },
  };
}

/** User and system time by proc_pid_stat(5), in ticks of 10 ms. */
function cpuOf(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]?.split(' ') ?? [];
  return 10 * (Number(fields[11]) + Number(fields[12]));
}

export interface Answered {
  readonly status: number;
  readonly headers: IncomingMessage['headers'];
  readonly body: Buffer;
}

/** Asks with a path and headers exactly as they are given: `fetch` would tidy them up. */
export const asking = (
  port: number,
  path: string,
  {
    method = 'GET',
    headers = {},
    host = '127.0.0.1',
  }: { method?: string; headers?: Record<string, string>; host?: string } = {},
): Promise<Answered> =>
  new Promise((resolve, reject) => {
    const asked = request({ host, port, path, method, headers }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('error', reject);
      response.on('end', () =>
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          body: Buffer.concat(parts),
        }),
      );
    });
    asked.on('error', reject);
    asked.end();
  });

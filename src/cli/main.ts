#!/usr/bin/env node
import { questioner } from './questioner.js';
import { run } from './run.js';

// A reader such as `head` may close the pipe early; that is no failure.
process.stdout.on('error', ({ code }: NodeJS.ErrnoException) => {
  if (code === 'EPIPE') process.exit(0);
  process.stderr.write(`thrice: the answer cannot be written (${code}).\n`);
  process.exit(1);
});

/** An exception is a fault of the program, whatever the files hold. */
function fault(error: unknown): 3 {
  const trace = error instanceof Error ? (error.stack ?? error.message) : String(error);
  process.stderr.write(
    `\nthrice: a fault of the program, not of your files. Please report it with these lines.\n${trace}\n`,
  );
  return 3;
}

const { ask, close } = questioner(process.stdin, process.stdout);
process.exitCode = await run(process.argv.slice(2), {
  out: (text) => process.stdout.write(`${text}\n`),
  err: (text) => process.stderr.write(`${text}\n`),
  ask,
  // Progress is for a person who watches; a pipe or a log stays quiet.
  progress: process.stderr.isTTY ? (step) => process.stderr.write(`\r\u001b[K${step}`) : null,
}).catch(fault);
close();

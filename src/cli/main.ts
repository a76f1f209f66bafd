#!/usr/bin/env node
import { questioner } from './questioner.js';
import { run } from './run.js';

// A reader such as `head` may close the pipe early; that is no failure.
process.stdout.on('error', ({ code }: NodeJS.ErrnoException) =>
  process.exit(code === 'EPIPE' ? 0 : 1),
);

const { ask, close } = questioner(process.stdin, process.stdout);
process.exitCode = await run(process.argv.slice(2), {
  out: (text) => process.stdout.write(`${text}\n`),
  err: (text) => process.stderr.write(`${text}\n`),
  ask,
  // Progress is for a person who watches; a pipe or a log stays quiet.
  progress: process.stderr.isTTY ? (step) => process.stderr.write(`\r\u001b[K${step}`) : null,
});
close();

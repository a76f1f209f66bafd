import { describe, expect, it } from 'vitest';
import { PROBLEM_NUMBERS, type ProblemKind } from '../../src/record/problem-kind.js';
import { BROKEN } from './broken.js';
import { messagesPage } from './page.js';
import { Workbench } from './workbench.js';

const KINDS = Object.keys(PROBLEM_NUMBERS) as ProblemKind[];
const examples = new Map<ProblemKind, string>();

/** The first message of a kind in what a command said. */
function messageOf(kind: ProblemKind, said: string): string | null {
  const number = PROBLEM_NUMBERS[kind];
  const message = said
    .split(/\n(?=\S)/)
    .find((part) => part.split('\n')[0]?.includes(`[${number}]`));
  return message?.trimEnd() ?? null;
}

describe('the numbers of the problems', () => {
  it('are each given once, in order', () => {
    const numbers = Object.values(PROBLEM_NUMBERS);
    expect(new Set(numbers).size).toBe(numbers.length);
    expect([...numbers].sort()).toEqual(numbers);
    for (const number of numbers) expect(number).toMatch(/^T[1-9]\d\d$/);
  });
});

describe('an unbroken clinic', () => {
  it('has no problem and no warning', async () => {
    const bench = new Workbench();
    expect(await bench.check()).toMatch(/^No problem in clover\.\n(?!.*\[T)/s);
    expect(bench.read()).toBe('');
    bench.remove();
  });
});

describe('a broken clinic', () => {
  it.each(KINDS)('is told of %s', async (kind) => {
    const broken = BROKEN[kind];
    if (typeof broken !== 'function') return;
    const bench = new Workbench();
    const said = await broken(bench);
    bench.remove();
    const message = messageOf(kind, said);
    expect(message, said).not.toBeNull();
    for (const part of ['found', 'expected', 'to mend']) {
      expect(message).toMatch(new RegExp(`^  ${part} +\\S`, 'm'));
    }
    examples.set(kind, message as string);
  });
});

it('is what docs/messages.md shows: "npm run messages" writes it anew', async () => {
  expect(KINDS.filter((kind) => typeof BROKEN[kind] === 'function' && !examples.has(kind))).toEqual(
    [],
  );
  const because = new Map(
    KINDS.flatMap((kind) => {
      const broken = BROKEN[kind];
      return typeof broken === 'function' ? [] : [[kind, broken.because] as const];
    }),
  );
  await expect(messagesPage(examples, because)).toMatchFileSnapshot('../../docs/messages.md');
});

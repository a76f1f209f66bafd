import { expect, it } from 'vitest';
import { phasesOf, type Timed, untimed } from '../../src/vitals/phases.js';

const COURSE: readonly Timed[] = [
  { minute: 0, what: 'induction' },
  { minute: 20, what: 'first incision' },
  { minute: 33, what: 'bleeding' },
  { minute: 40, what: 'bleeding stopped' },
  { minute: 50, what: 'closure' },
  { minute: 65, what: 'end of surgery' },
  { minute: 75, what: 'extubation' },
];
const without = (...gone: string[]) => COURSE.filter(({ what }) => !gone.includes(what));

it('follows an operation from induction to extubation, the bleeding within it', () => {
  expect(phasesOf(COURSE, false)).toEqual([
    { name: 'preparation', from: 0, to: 20 },
    { name: 'operation', from: 20, to: 50 },
    { name: 'bleeding', from: 33, to: 40 },
    { name: 'closing', from: 50, to: 65 },
    { name: 'recovery', from: 65, to: 75 },
  ]);
  expect(untimed(COURSE, false)).toEqual([]);
});

it('tells no phase of which the record lacks an end, and names what it lacks', () => {
  const told = without('first incision', 'extubation');
  expect(phasesOf(told, false).map(({ name }) => name)).toEqual(['bleeding', 'closing']);
  expect(untimed(told, false)).toEqual(['first incision', 'extubation']);
});

it('lets the operation on a wound that is left open last to its end, and misses no closure', () => {
  const open = without('closure', 'bleeding', 'bleeding stopped');
  expect(phasesOf(open, true)[1]).toEqual({ name: 'operation', from: 20, to: 65 });
  expect(untimed(open, true)).toEqual([]);
});

it('lets the operation last to the end of surgery where nobody wrote when closure began', () => {
  const unclosed = without('closure', 'bleeding', 'bleeding stopped');
  expect(phasesOf(unclosed, false)).toEqual([
    { name: 'preparation', from: 0, to: 20 },
    { name: 'operation', from: 20, to: 65 },
    { name: 'recovery', from: 65, to: 75 },
  ]);
  expect(untimed(unclosed, false)).toEqual(['closure']);
});

it('takes an end before its beginning for no phase', () => {
  const turned: Timed[] = [
    { minute: 30, what: 'bleeding' },
    { minute: 20, what: 'bleeding stopped' },
  ];
  expect(phasesOf(turned, false)).toEqual([]);
});

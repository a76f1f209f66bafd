import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

/** The atria keep time to some thousandths of a second; every second of their waves leads to a QRS. */
const ATRIA = [0, 1.5, -1, 0.5, -1.5, 1].map((ms) => ms / 1000);
const atrium = (i: number, cycle: number): number => 0.2 + i * cycle + ATRIA[i % ATRIA.length]!;

interface Plan {
  readonly species: 'dog' | 'cat';
  readonly rate: number;
  /** Of the atria, s. */
  readonly cycle: number;
  readonly pr: number;
  /** Of each lead: P from its peak, QRS and T from R. */
  readonly leads: readonly { readonly p: Bell; readonly beat: readonly Bell[] }[];
}

function told({ species, rate, cycle, pr, leads }: Plan): string[] {
  const atria = Array.from({ length: Math.floor(20 / cycle) }, (_, i) => atrium(i, cycle));
  const channels = leads.map(({ p, beat }, lead): Channel => {
    const rendered = syntheticLead({
      rate,
      duration: 20.3,
      beats: atria,
      waves: (i) => {
        const isFollowed = i % 2 === 1;
        return isFollowed ? [p, ...beat.map((bell) => ({ ...bell, at: bell.at + pr }))] : [p];
      },
      noise: 0.001,
      seed: lead + 1,
    });
    return { ...rendered, label: ['II', 'I', 'III'][lead]! };
  });
  const { rhythms } = analyseStrip(channels, { patient: patientOf(species), breath: {} });
  return rhythms.map(({ name }) => name);
}

const qrs = (r: number, width: number): Bell[] => [
  { at: -2.6 * width, height: -0.15 * r, width: 0.7 * width },
  { at: 0, height: r, width },
  { at: 2.6 * width, height: -0.2 * r, width: 0.9 * width },
];

// As a monitor of few values a second shows them.
const few: Plan = {
  species: 'dog',
  rate: 100,
  cycle: 0.195,
  pr: 0.115,
  leads: [
    {
      p: { at: 0, height: 0.15, width: 0.0125 },
      beat: [...qrs(1.1, 0.0075), { at: 0.085, height: 0.25, width: 0.022 }],
    },
  ],
};

const leaning = (height: number, width: number): Bell[] => [
  { at: 0.095, height: 0.6 * height, width },
  { at: 0.055, height: 0.5 * height, width: 1.3 * width },
];

const unsmooth: Plan = {
  species: 'dog',
  rate: 500,
  cycle: 0.19,
  pr: 0.092,
  leads: [
    {
      p: { at: 0, height: 0.238, width: 0.01 },
      beat: [...qrs(1.42, 0.005), ...leaning(0.235, 0.022)],
    },
    {
      p: { at: 0, height: -0.05, width: 0.01 },
      beat: [...qrs(0.6, 0.005), ...leaning(0.2, 0.012)],
    },
  ],
};

const blockedBranch: Plan = {
  species: 'cat',
  rate: 500,
  cycle: 0.18,
  pr: 0.095,
  leads: [
    {
      p: { at: 0, height: 0.12, width: 0.0083 },
      beat: [
        { at: -0.012, height: 0.45, width: 0.009 },
        { at: 0.006, height: 0.5, width: 0.009 },
        { at: 0.025, height: 0.35, width: 0.01 },
        { at: 0.11, height: -0.12, width: 0.018 },
      ],
    },
  ],
};

describe('atria of which every second wave is followed', () => {
  it.each([
    ['on the top of T, seen in few values a second', few],
    ['on a T that is less smooth than others', unsmooth],
    ['beside the QRS of a blocked branch', blockedBranch],
  ])('bear no sinus name where the other stands %s', (_, plan) => {
    expect(told(plan).filter((name) => name.startsWith('sinus'))).toEqual([]);
  });
});

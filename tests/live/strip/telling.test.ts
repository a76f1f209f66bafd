import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { speaker } from '../../../src/live/strip/say.js';
import { tellBeat, tellMeasured, tellPoint } from '../../../src/live/strip/telling.js';
import { TOLD_KINDS, type ToldBeat } from '../../../src/signal/told-beats.js';
import { flatten } from '../../../src/words/phrasebook.js';

const content = (language: string, file: string) =>
  flatten(
    parse(
      readFileSync(new URL(`../../../content/${language}/${file}.yaml`, import.meta.url), 'utf8'),
    ),
  );

const sayIn = (language: string) => {
  const kinds = content(language, 'learner');
  return speaker({
    ...content(language, 'live'),
    ...Object.fromEntries(
      TOLD_KINDS.map((kind) => [`strip.kind.${kind}`, kinds[`strip.kinds.${kind}`] ?? '']),
    ),
  });
};

const beat: ToldBeat = {
  number: 12,
  time: 7.0312,
  kind: 'sinus',
  rr: 0.6,
  p: 'seen',
  pr: 0.104,
  qrs: 0.052,
  qt: 0.2184,
};

describe.each(['en', 'es'])('a beat in words (%s)', (language) => {
  const say = sayIn(language);

  it('names number, time, RR with its rate, P, and each interval', () => {
    const told = tellBeat(beat, 40, 'X', say);
    for (const part of ['12', '40', '7.03', '0.600', '100', '0.104', '0.052', '0.218', 'X']) {
      expect(told).toContain(part);
    }
    expect(told).not.toContain(say('told.withheld', { names: '' }).slice(0, -2));
  });

  it('tells what is withheld as withheld, and gives no number for it', () => {
    const told = tellBeat(
      { ...beat, kind: 'withheld', rr: 'not readable between', p: 'unsure', pr: null, qt: null },
      40,
      'X',
      say,
    );
    expect(told).toContain(say('kind.withheld'));
    expect(told).toContain(say('told.not readable between'));
    expect(told).toContain(say('told.p unsure'));
    expect(told).toContain(say('told.withheld', { names: 'PR, QT' }));
    expect(told).not.toMatch(/0\.600|0\.104|0\.218/);
  });

  it('says once that no rhythm is named', () => {
    const withheld = tellBeat({ ...beat, kind: 'withheld' }, 40, null, say);
    expect(withheld).not.toContain(say('told.untold'));
    const early = tellBeat({ ...beat, kind: 'ventricular premature' }, 40, null, say);
    expect(early).toContain(say('told.untold'));
  });

  it('has words for every kind of beat, and leaves no gap open', () => {
    for (const kind of TOLD_KINDS) {
      for (const rr of [0.6, 'first beat', 'not readable between'] as const) {
        for (const p of ['seen', 'unsure', 'not seen'] as const) {
          const told = tellBeat({ ...beat, kind, rr, p }, 40, 'X', say);
          expect(told).not.toMatch(/[{}]|undefined|null|NaN/);
        }
      }
    }
  });

  it('tells time, rate and height between two points, and warns across what cannot be read', () => {
    const between = { seconds: 0.6, perMinute: 100, millivolts: -1.5 };
    const told = tellMeasured(between, false, say);
    for (const part of ['0.600', '600', '100', '−1.50']) expect(told).toContain(part);
    expect(told).not.toContain(say('measured.unreadable'));
    expect(tellMeasured(between, true, say)).toContain(say('measured.unreadable'));
    expect(tellMeasured({ ...between, millivolts: null }, false, say)).toContain(
      say('measured.noHeight'),
    );
  });

  it('tells a point with the wave that it stands on', () => {
    const mark = { at: 1, wave: 'QRS', part: 'peak', beat: 3 } as const;
    const told = tellPoint(1, 0.5, mark, say);
    for (const part of ['1.000', '+0.50', 'R', '3']) expect(told).toContain(part);
    expect(tellPoint(1, null, null, say)).toContain(say('point.noHeight'));
  });
});

it('speaks up when words are missing', () => {
  expect(() => speaker({})('before')).toThrow('strip.before');
});

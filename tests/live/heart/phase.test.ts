import { describe, expect, it } from 'vitest';
import { phaseAt } from '../../../src/live/heart/phase.js';
import { beatAt, strip, wave } from './records.js';

const normal = strip([beatAt(1), beatAt(2), beatAt(3)]);

describe('a beat that the sinus node leads', () => {
  it('excites the atria from the sinus node while P lasts', () => {
    expect(phaseAt(normal, 1.87)).toMatchObject({ step: 'atria', beat: 1, node: 'at rest' });
    expect(phaseAt(normal, 1.88).atria).toMatchObject({
      is: 'being excited',
      from: 'sinus node',
      share: expect.closeTo(0.25, 6),
    });
    expect(phaseAt(normal, 1.89).ventricles).toEqual({ is: 'at rest' });
  });

  it('waits in the node, and then runs through bundle and branches, until QRS begins', () => {
    expect(phaseAt(normal, 1.92)).toMatchObject({
      step: 'holding',
      node: 'holding',
      branches: 'at rest',
      atria: { is: 'excited' },
      beat: 1,
    });
    expect(phaseAt(normal, 1.965)).toMatchObject({
      step: 'passing',
      node: 'passing',
      branches: 'carrying',
      ventricles: { is: 'at rest' },
    });
  });

  it('excites the ventricles by the branches while QRS lasts, and they recover while T does', () => {
    expect(phaseAt(normal, 2)).toMatchObject({
      step: 'ventricles',
      beat: 1,
      branches: 'carrying',
      ventricles: { is: 'being excited', from: 'branches', share: expect.closeTo(0.5, 6) },
      atria: { is: 'recovering unseen' },
    });
    expect(phaseAt(normal, 2.05)).toMatchObject({ step: 'plateau', ventricles: { is: 'excited' } });
    expect(phaseAt(normal, 2.16)).toMatchObject({
      step: 'recovery',
      ventricles: { is: 'recovering', share: expect.closeTo(0.5, 6) },
    });
    expect(phaseAt(normal, 2.5)).toEqual({
      step: 'rest',
      atria: { is: 'at rest' },
      node: 'at rest',
      branches: 'at rest',
      ventricles: { is: 'at rest' },
      beat: null,
      wave: null,
    });
  });

  it('names the wave that is under way', () => {
    expect(phaseAt(normal, 1.88).wave).toEqual(normal.beats[1]?.p);
    expect(phaseAt(normal, 2).wave).toEqual(normal.beats[1]?.qrs);
    expect(phaseAt(normal, 2.15).wave).toEqual(normal.beats[1]?.t);
    expect(phaseAt(normal, 2.05).wave).toBeNull();
  });

  it('can set out while the ventricles of the beat before still recover', () => {
    const fast = strip([beatAt(1), beatAt(1.25), beatAt(1.5)]);
    expect(phaseAt(fast, 1.14)).toMatchObject({
      step: 'atria',
      beat: 1,
      atria: { is: 'being excited' },
      ventricles: { is: 'recovering' },
    });
  });
});

describe('what the strip does not show', () => {
  it('claims nothing before the first wave and after the last', () => {
    for (const second of [0.2, 5]) {
      expect(phaseAt(normal, second)).toMatchObject({
        step: 'edge',
        atria: { is: 'not known' },
        node: 'not known',
        branches: 'not known',
        ventricles: { is: 'not known' },
        beat: null,
      });
    }
    expect(phaseAt(normal, -1).step).toBe('unreadable');
    expect(phaseAt(normal, 11).step).toBe('unreadable');
  });

  it('claims nothing where the strip cannot be read, nor across it', () => {
    const broken = strip([beatAt(1), beatAt(2), beatAt(5), beatAt(6)], { unreadable: [2.5, 4] });
    expect(phaseAt(broken, 3)).toMatchObject({
      step: 'unreadable',
      ventricles: { is: 'not known' },
    });
    expect(phaseAt(broken, 2.4).step).toBe('edge');
    expect(phaseAt(broken, 4.2).step).toBe('edge');
    expect(phaseAt(broken, 5.5).step).toBe('rest');
  });

  it('invents no P where none was marked before a sinus beat', () => {
    const hidden = strip([beatAt(1), beatAt(2, 'sinus', { p: null }), beatAt(3)]);
    expect(phaseAt(hidden, 1.88)).toMatchObject({
      step: 'atriaUnknown',
      beat: 1,
      atria: { is: 'not known' },
      ventricles: { is: 'at rest' },
    });
    expect(phaseAt(hidden, 2)).toMatchObject({ step: 'ventricles', branches: 'carrying' });
    expect(phaseAt(hidden, 2.5)).toMatchObject({ step: 'rest', atria: { is: 'at rest' } });
  });

  it('invents no recovery where T was withheld', () => {
    const hidden = strip([beatAt(1), beatAt(2, 'sinus', { t: null }), beatAt(3)]);
    for (const second of [2.05, 2.5]) {
      expect(phaseAt(hidden, second)).toMatchObject({
        step: 'recoveryUnknown',
        beat: 1,
        ventricles: { is: 'not known' },
      });
    }
    expect(phaseAt(hidden, 2.88).step).toBe('atria');
    expect(phaseAt(hidden, 3).ventricles.is).toBe('being excited');
  });

  it('invents no width where a beat was counted without its QRS being measured', () => {
    const hidden = strip([beatAt(1), beatAt(2, 'sinus', { qrs: null }), beatAt(3)]);
    expect(phaseAt(hidden, 2)).toMatchObject({
      step: 'qrsUnknown',
      ventricles: { is: 'not known' },
    });
    expect(phaseAt(hidden, 2.15).step).toBe('recovery');
  });

  it('calls a stretch without a named rhythm no rest', () => {
    const open = strip([beatAt(1), beatAt(2)], { ruled: 'cannot be told' });
    expect(phaseAt(open, 1.5).step).toBe('restUnnamed');
    expect(phaseAt(strip([], { ruled: 'cannot be told' }), 5)).toMatchObject({
      step: 'edge',
      ventricles: { is: 'not known' },
    });
  });
});

describe('an early beat of the ventricles', () => {
  const early = strip([
    beatAt(1),
    beatAt(1.6, 'ventricular premature', { p: null, qrs: wave(1.55, 1.66), t: wave(1.7, 1.85) }),
    beatAt(2.6),
  ]);

  it('starts in the ventricles and does not use the bundle', () => {
    expect(phaseAt(early, 1.6)).toMatchObject({
      step: 'ventricularEarly',
      beat: 1,
      node: 'at rest',
      branches: 'not used',
      ventricles: { is: 'being excited', from: 'ventricle' },
    });
  });

  it('has no P, and hides one that falls into it', () => {
    expect(phaseAt(early, 1.5)).toMatchObject({ step: 'rest', atria: { is: 'at rest' } });
    expect(phaseAt(early, 1.6).atria).toEqual({ is: 'not known' });
  });

  it('is not said to come from a P that happens to stand before it', () => {
    const after = strip([
      beatAt(1),
      beatAt(1.6, 'ventricular premature', { p: wave(1.44, 1.48), qrs: wave(1.55, 1.66) }),
      beatAt(2.6),
    ]);
    expect(phaseAt(after, 1.46).step).toBe('atriaElsewhere');
    expect(phaseAt(after, 1.5)).toMatchObject({
      step: 'notConducted',
      node: 'not known',
      branches: 'not known',
    });
    expect(phaseAt(after, 1.6).branches).toBe('not used');
  });

  it('is as little conducted when the heart escapes to the ventricles', () => {
    const escaped = strip([beatAt(1), beatAt(3.5, 'ventricular escape', { p: null }), beatAt(5)]);
    expect(phaseAt(escaped, 3)).toMatchObject({ step: 'rest', atria: { is: 'at rest' } });
    expect(phaseAt(escaped, 3.5)).toMatchObject({ step: 'ventricularOwn', branches: 'not used' });
  });
});

describe('beats from elsewhere', () => {
  it('escape from the junction: they start there and use the bundle', () => {
    const escaped = strip([beatAt(1), beatAt(3, 'junctional escape', { p: null }), beatAt(4)]);
    expect(phaseAt(escaped, 3)).toMatchObject({
      step: 'junction',
      node: 'starting',
      branches: 'carrying',
      atria: { is: 'not known' },
    });
  });

  it('start in the atria, at a place that the strip does not tell', () => {
    const early = strip([beatAt(1), beatAt(1.6, 'supraventricular premature'), beatAt(2.6)]);
    expect(phaseAt(early, 1.49)).toMatchObject({
      step: 'atriaElsewhere',
      atria: { is: 'being excited', from: 'not known' },
    });
    expect(phaseAt(early, 1.6)).toMatchObject({ step: 'ventricles', branches: 'carrying' });
  });

  it('of which the kind cannot be told use no way that is told', () => {
    const open = strip([beatAt(1), beatAt(2, 'unclassified'), beatAt(3)]);
    expect(phaseAt(open, 2)).toMatchObject({
      step: 'unclassified',
      node: 'not known',
      branches: 'not known',
      ventricles: { is: 'being excited', from: 'not known' },
    });
  });

  it('meet: a fusion beat comes by the branches and from the ventricle', () => {
    const met = strip([beatAt(1), beatAt(2, 'fusion'), beatAt(3)]);
    expect(phaseAt(met, 2)).toMatchObject({
      step: 'fusion',
      ventricles: { from: 'branches and ventricle' },
    });
  });
});

describe('a P that no QRS follows', () => {
  const blocked = strip([beatAt(1), beatAt(3), beatAt(4)], {
    ruled: 'second-degree atrioventricular block, constant PR',
    loneP: [wave(1.87, 1.91)],
  });

  it('excites the atria and stops in the node', () => {
    expect(phaseAt(blocked, 1.89)).toMatchObject({
      step: 'atria',
      beat: null,
      atria: { from: 'sinus node' },
      wave: blocked.loneP[0],
    });
    expect(phaseAt(blocked, 1.95)).toMatchObject({
      step: 'blocked',
      node: 'blocked',
      branches: 'at rest',
      ventricles: { is: 'at rest' },
      wave: blocked.loneP[0],
    });
    expect(phaseAt(blocked, 2.4).step).toBe('rest');
  });

  it('finds the ventricles not ready where it falls into a beat that is not over', () => {
    const early = strip(
      [
        beatAt(1),
        beatAt(1.6, 'ventricular premature', { p: null, t: wave(1.7, 1.92) }),
        beatAt(2.9),
      ],
      { loneP: [wave(1.87, 1.91)] },
    );
    expect(phaseAt(early, 1.95)).toMatchObject({ step: 'notReady', node: 'blocked' });
  });

  it('does not keep a heart that escapes from being shown', () => {
    const third = strip(
      [
        beatAt(1, 'ventricular escape', { p: null }),
        beatAt(3, 'ventricular escape', { p: null }),
        beatAt(5, 'ventricular escape', { p: null }),
      ],
      { ruled: 'third-degree atrioventricular block', loneP: [wave(2.9, 2.94)] },
    );
    expect(phaseAt(third, 2.96)).toMatchObject({ step: 'blocked' });
    expect(phaseAt(third, 3)).toMatchObject({
      step: 'ventricularOwn',
      node: 'blocked',
      branches: 'not used',
    });
  });
});

describe('rhythms in which something fails', () => {
  it('fibrillating ventricles are in disorder, and of the rest nothing is said', () => {
    expect(phaseAt(strip([beatAt(1)], { ruled: 'ventricular fibrillation' }), 5)).toMatchObject({
      step: 'ventricularFibrillation',
      ventricles: { is: 'in disorder' },
      atria: { is: 'not known' },
      beat: null,
    });
  });

  it('fibrillating atria are in disorder through every beat', () => {
    const beats = [1, 1.7, 2.1].map((time) => beatAt(time, 'sinus', { p: null }));
    const flutter = strip(beats, { ruled: 'atrial fibrillation' });
    expect(phaseAt(flutter, 1.5)).toMatchObject({
      step: 'atrialFibrillation',
      atria: { is: 'in disorder' },
      node: 'not known',
    });
    expect(phaseAt(flutter, 1.7)).toMatchObject({
      step: 'ventricles',
      atria: { is: 'in disorder' },
      branches: 'carrying',
    });
  });

  it('atria that stand still stay so while the ventricles beat', () => {
    const beats = [1, 2, 3].map((time) => beatAt(time, 'sinus', { p: null }));
    const still = strip(beats, { ruled: 'atrial standstill' });
    expect(phaseAt(still, 1.5)).toMatchObject({ step: 'atrialStandstill', atria: { is: 'still' } });
    expect(phaseAt(still, 2)).toMatchObject({ step: 'ventricles', atria: { is: 'still' } });
  });

  it('a heart without current is still, and its P waves stop in the node', () => {
    const flat = strip([], { ruled: 'asystole', loneP: [wave(5, 5.04)] });
    expect(phaseAt(flat, 3)).toMatchObject({
      step: 'asystole',
      atria: { is: 'still' },
      ventricles: { is: 'still' },
    });
    expect(phaseAt(flat, 5.1).step).toBe('blocked');
  });
});

import { describe, expect, it } from 'vitest';
import { misfits } from '../../src/care/neutering.js';
import { demo } from '../facts/demo.js';

describe('a procedure that neuters', () => {
  it.each([
    ['spay', 'female'],
    ['castration', 'male'],
  ] as const)('is %s of an intact %s', (procedure, sex) => {
    const other = sex === 'female' ? 'male' : 'female';
    expect(misfits(procedure, { sex, neutered: false })).toEqual([]);
    expect(misfits(procedure, { sex, neutered: true })).toEqual([{ kind: 'neutered' }]);
    expect(misfits(procedure, { sex: other, neutered: false })).toEqual([
      { kind: 'sex', expected: sex },
    ]);
    expect(misfits(procedure, { sex: other, neutered: true })).toHaveLength(2);
  });

  it('is known by a key of the content', () => {
    const keys = demo.content.keys.procedures;
    for (const procedure of ['spay', 'castration', 'cesarean section', 'infected womb removal'])
      expect(keys).toContain(procedure);
  });
});

it('any other procedure fits everybody', () => {
  expect(misfits('hernia repair', { sex: 'male', neutered: true })).toEqual([]);
});

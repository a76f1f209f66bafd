import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalJson, digestOf, statedFacts } from '../../src/facts/digest.js';
import { demo } from './demo.js';

/** The same value with the keys of every group the other way round. */
function turned(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(turned);
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, part]) => [key, turned(part)]),
  );
}

describe('canonical JSON', () => {
  it('does not depend on the order of keys', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(canonicalJson(turned(value))).toBe(canonicalJson(value));
      }),
    );
  });

  it('means the same as the value', () => {
    const whole = fc.letrec((tie) => ({
      tree: fc.oneof(
        { maxDepth: 3 },
        fc.string(),
        fc.integer({ min: -1e6, max: 1e6 }),
        fc.boolean(),
        fc.constant(null),
        fc.array(tie('tree')),
        fc.dictionary(fc.string(), tie('tree'), { noNullPrototype: true }),
      ),
    })).tree;
    fc.assert(
      fc.property(whole, (value) => {
        expect(JSON.parse(canonicalJson(value))).toEqual(value);
      }),
    );
  });

  it('takes numbers that differ in the last digits of their sum for one', () => {
    expect(canonicalJson({ b: 0.1 + 0.2, a: -0 })).toBe('{"a":0,"b":0.3}');
    expect(canonicalJson([Number.NaN, undefined, null])).toBe('["NaN",null,null]');
    expect(digestOf(0.3)).not.toBe(digestOf(0.300001));
  });

  it('has the digest that any other program computes', () => {
    // `printf '{"a":1}' | sha256sum`
    expect(digestOf({ a: 1 })).toBe(
      '015abd7f5cc57a2dd94b7590f04ad8084273905ee33ec5cebeae62276a97f862',
    );
  });
});

describe.each(demo.cases.map((one) => [one.name, one.facts] as const))(
  'what documents state of %s',
  (_, facts) => {
    const text = canonicalJson(statedFacts(facts));

    it('holds each dose, day and rate', () => {
      for (const { doses } of facts.home.medicines) {
        for (const dose of doses.value) expect(text).toContain(dose);
      }
      expect(text).toContain(facts.home.restUntil.value);
      expect(text).toContain(facts.identity.clinic.emergency?.phone);
    });

    it('holds no place in a file, nothing of the owner and no consent', () => {
      expect(text).not.toContain('case.yaml');
      expect(text).not.toContain('vitals.csv');
      expect(text).not.toContain(facts.identity.owner.name);
      expect(text).not.toContain('"consent"');
      expect(text).not.toContain('"how"');
    });

    it('changes with any of its values', () => {
      const other = { ...facts, home: { ...facts.home, rechecks: [] } };
      expect(digestOf(statedFacts(other)) === digestOf(statedFacts(facts))).toBe(
        facts.home.rechecks.length === 0,
      );
      const renamed = { ...facts, identity: { ...facts.identity, patientName: 'Other' } };
      expect(digestOf(statedFacts(renamed))).not.toBe(digestOf(statedFacts(facts)));
    });
  },
);

import { describe, expect, it } from 'vitest';
import { faultOf } from './judge.js';
import { SUBJECTS } from './subjects.js';

/** Inputs for each reader in the test command; `npm run fuzz` takes many more. Not a clinical number. */
const INPUTS = 80;

describe.each(SUBJECTS)('$name, changed at random', (subject) => {
  it(`gives a value or problems with their place, ${INPUTS} times`, async () => {
    const faults: string[] = [];
    for (let seed = 0; seed < INPUTS; seed++) {
      const fault = await faultOf(subject, seed);
      if (fault !== null) faults.push(`seed ${seed}: ${fault}`);
    }
    expect(faults).toEqual([]);
  });
});

import { describe, expect, it } from 'vitest';
import { printPdf } from '../../../src/publish/pdf/print.js';
import type { Language } from '../../../src/words/language.js';
import { ownerSheet } from '../../../src/words/owner/owner-sheet.js';
import { demo } from '../../facts/demo.js';
import type { Change } from '../../record/sample.js';
import { factsOf } from '../../words/owner/sheet-of.js';
import { hasProgram, overFile } from '../programs.js';

const AMOUNTS = ['0.25', '0.15', '0.35', '0.45', '0.55'] as const;
const step = (amount: string, index: number) => `    - drug: prednisolone
      for: hormones
      strength: 3 mg/mL
      give: ${amount} mL
      route: by mouth
      every: 12 h
      food: with food
      ${index === 0 ? 'last given: 08:40' : `first: 2026-03-${12 + 4 * index} 08:00`}
      doses: 6
`;
const STEPS: Change = [/ {4}- drug: carprofen[\s\S]*?(?= {2}collar)/, AMOUNTS.map(step).join('')];

describe.runIf(hasProgram('pdftotext'))('the syringe of a medicine', () => {
  it.each(['Letter', 'A4'] as const)(
    'stands on the page of its name and dose, in large type too: %s',
    (paper) => {
      const facts = factsOf([], STEPS);
      const { identity } = facts;
      const large = { ...identity, owner: { ...identity.owner, largeType: true } };
      const language = demo.content.languages.get('en') as Language;
      const sheet = ownerSheet({ ...facts, identity: large }, language, []);
      const { text } = overFile(printPdf({ ...sheet, paper }), 'pdftotext', '-raw', 'FILE', '-');
      const pages = text.split('\f').map((page) => page.replaceAll('\u00a0', ' '));
      for (const amount of AMOUNTS) {
        const told = pages.filter((page) =>
          page.replaceAll('\n', ' ').includes(`Give ${amount} mL`),
        );
        const drawn = pages.filter((page) => page.split('\n').includes(`${amount} mL`));
        expect(told, amount).toHaveLength(1);
        expect(drawn, amount).toEqual(told);
      }
    },
  );
});

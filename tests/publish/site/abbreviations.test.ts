import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SEARCH_INDEXES, type SearchIndex } from '../../../src/live/search/contract.js';
import { searchOver } from '../../../src/live/search/find.js';
import { demoSite } from '../../demo-site.js';

const out = join(await demoSite(), 'public');

function indexOf(tag: string): SearchIndex {
  const scope: Record<string, Record<string, SearchIndex>> = {};
  const script = readFileSync(join(out, 'assets', `search-${tag}.js`), 'utf8');
  new Function('globalThis', script)(scope);
  return scope[SEARCH_INDEXES]?.[tag] as SearchIndex;
}

/** Each abbreviation with a word of what it stands for. */
const MEANT = {
  en: {
    VPC: /ventricular/i,
    SVPC: /supraventricular/i,
    AVB: /atrioventricular block/i,
    AF: /atrial fibrillation/i,
    VT: /ventricular tachycardia/i,
    VF: /ventricular fibrillation/i,
    MAP: /mean/i,
    SAP: /systolic/i,
    DAP: /diastolic/i,
    EtCO2: /carbon dioxide|EtCO2/i,
    SpO2: /oxygen|SpO2/i,
    ECG: /ECG/,
    NSAID: /anti-inflammatory/i,
    HR: /heart rate/i,
    RR: /RR|respiratory|breaths/i,
  },
  es: {
    VPC: /ventricular/i,
    SVPC: /supraventricular/i,
    AVB: /auriculoventricular|bloqueo AV/i,
    AF: /fibrilación auricular/i,
    VT: /taquicardia ventricular/i,
    VF: /fibrilación ventricular/i,
    MAP: /presión/i,
    SAP: /sistólica/i,
    DAP: /diastólica/i,
    EtCO2: /CO2|carbono/i,
    SpO2: /oxígeno|SpO2/i,
    ECG: /ECG/,
    NSAID: /antiinflamatori|analg/i,
    HR: /frecuencia/i,
    RR: /RR|respira/i,
  },
} as const;

describe.each(Object.entries(MEANT))('the search of %s', (tag, meant) => {
  const index = indexOf(tag);
  const search = searchOver(index);

  it.each(Object.entries(meant))('finds what %s stands for', (short, subject) => {
    for (const query of [short, short.toLowerCase()]) {
      const { pages, loosely } = search(query);
      expect(loosely).toBe(false);
      const found = pages.flatMap(({ title, passages }) =>
        [title, ...passages.flatMap(({ heading, text }) => [heading, text])].map((pieces) =>
          pieces.map(({ text }) => text).join(''),
        ),
      );
      expect(
        found.some((text) => subject.test(text)),
        query,
      ).toBe(true);
    }
  });

  it('leads to headings that are there', () => {
    for (const { page, at } of index.passages) {
      const html = readFileSync(join(out, index.pages[page]?.file as string), 'utf8');
      expect(at === '' || html.includes(`id="${at}"`), `${index.pages[page]?.file}#${at}`).toBe(
        true,
      );
    }
  });
});

it.each([
  ['', 'How the heart pumps'],
  ['es/', 'Cómo bombea el corazón'],
])(
  'the glossary %s leads from wound contraction and perfusion to pages that speak of them alone',
  (folder, heart) => {
    const html = readFileSync(join(out, 'library', folder, 'glossary.html'), 'utf8');
    const entry = (id: string) => html.split(`id="${id}"`)[1]?.split('<dt')[0] as string;
    for (const id of ['wound-contraction', 'perfusion']) {
      expect(entry(id)).toContain('href=');
      expect(entry(id)).not.toContain(heart);
      expect(entry(id)).not.toContain('how-the-heart-pumps');
    }
  },
);

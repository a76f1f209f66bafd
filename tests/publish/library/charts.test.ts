import { beforeAll, describe, expect, it } from 'vitest';
import { disk } from '../../../src/publish/disk.js';
import { load } from '../../../src/publish/load.js';
import { printPdf } from '../../../src/publish/pdf/print.js';
import { emptyChart, filledChart } from '../../../src/words/anesthesia-chart.js';
import type { Handout } from '../../../src/words/handout.js';
import type { Language } from '../../../src/words/language.js';
import { failuresOf } from '../../tools/pdf-ua/checkpoints.js';
import { examine } from '../../tools/pdf-ua/document.js';
import { PdfObjects, textOf } from '../../tools/pdf-ua/objects.js';
import { alongTheTree } from '../../tools/pdf-ua/reading-order.js';
import { spokenHandout, spokenPictures, squeezed } from '../../tools/spoken-handout.js';
import { DEMO } from '../clinic.js';
import { hasProgram, overFile } from '../programs.js';

const loaded = load(
  DEMO,
  disk(() => undefined),
);
if (!loaded.ok) throw new Error('the demo cannot be read');
const { cases, content } = loaded.value;
const languages = ['en', 'es'].map((tag) => content.languages.get(tag) as Language);

interface Chart {
  readonly name: string;
  readonly handout: Handout;
  pdf: Uint8Array;
}

const none = new Uint8Array();
const charts: Chart[] = (['A4', 'Letter'] as const).flatMap((paper) =>
  languages.flatMap((language) => [
    { name: `empty ${paper} ${language.tag}`, handout: emptyChart(language, paper), pdf: none },
    ...cases.flatMap(({ name, facts }) => {
      const clinic = { ...facts.identity.clinic, paper };
      const here = { ...facts, identity: { ...facts.identity, clinic } };
      return [false, true].map((approved) => ({
        name: `${name} ${paper} ${language.tag} ${approved ? 'approved' : 'draft'}`,
        handout: filledChart(here, language, approved),
        pdf: none,
      }));
    }),
  ]),
);

beforeAll(async () => {
  for (const chart of charts) chart.pdf = await printPdf(chart.handout);
}, 120_000);

describe.runIf(hasProgram('pdfinfo'))('an anesthesia chart', () => {
  it('is one page of the paper that it is made for', () => {
    expect(charts).toHaveLength(52);
    for (const { name, handout, pdf } of charts) {
      const { text } = overFile(pdf, 'pdfinfo', 'FILE');
      expect(/^Pages:\s+(\d+)$/m.exec(text)?.[1], name).toBe('1');
      const size = handout.paper === 'A4' ? /595\.\d+ x 841\.\d+/ : /612 x 792/;
      expect(text, name).toMatch(size);
    }
  });
});

describe.runIf(hasProgram('pdftotext'))('a chart that is filled in', () => {
  it('says of the patient what the record says, and of no drug that was given', () => {
    for (const { name, facts } of cases) {
      const { pdf } = charts.find((chart) => chart.name === `${name} Letter en draft`) as Chart;
      const { text } = overFile(pdf, 'pdftotext', '-layout', 'FILE', '-');
      const words = text.replace(/\s+/g, ' ');
      const { identity, patient, anesthesia, surgery } = facts;
      for (const known of [
        identity.patientName,
        identity.record,
        patient.breed.value,
        String(patient.weight.value),
        surgery.date.value.slice(0, 10),
      ]) {
        expect(words, `${name}: ${known}`).toContain(known);
      }
      for (const { drug } of anesthesia.drugs) expect(words, name).not.toContain(drug);
    }
  });

  it('bears the draft mark until the facts are approved', () => {
    for (const { name, handout } of charts) {
      expect(handout.draft !== null, name).toBe(name.endsWith('draft'));
    }
  });

  it('holds nothing of a patient where it is empty', () => {
    const names = cases.map(({ facts }) => facts.identity.patientName);
    for (const { name, pdf } of charts.filter((chart) => chart.name.startsWith('empty'))) {
      const { text } = overFile(pdf, 'pdftotext', 'FILE', '-');
      for (const patient of names) expect(text, name).not.toContain(patient);
    }
  });
});

describe.runIf(['qpdf', 'pdfinfo'].every(hasProgram))('a chart for those who hear it', () => {
  it('passes the conditions of the Matterhorn Protocol that a program can decide', () => {
    for (const { name, pdf } of charts) {
      expect(failuresOf(examine(new PdfObjects(pdf))), name).toEqual({});
    }
  });

  it('is read in the order of its handout, and tells its form in words', () => {
    for (const { name, handout, pdf } of charts) {
      expect(squeezed(alongTheTree(pdf)), name).toBe(squeezed(spokenHandout(handout).join(' ')));
      const told = examine(new PdfObjects(pdf))
        .nodes.filter(({ type }) => type === '/Figure')
        .map(({ dict }) => textOf(dict['/Alt']));
      expect(told, name).toEqual(spokenPictures(handout));
      for (const row of handout.language === 'en' ? ['Heart rate', 'SpO2'] : ['Frec.', 'SpO2']) {
        expect(told.join(), name).toContain(row);
      }
    }
  });
});

import { afterAll, expect, it } from 'vitest';
import { thrice } from '../cli/thrice.js';
import { TestClinic } from './clinic.js';

const clinic = new TestClinic('juniper');
afterAll(() => clinic.remove());

it('a case is published without a chart as long as its table has titles alone, as "thrice new" writes it', async () => {
  clinic.edit('cases/juniper/vitals.csv', /\n[\s\S]*/, '\n');
  const { code, err } = await thrice('build', clinic.folder, '--out', clinic.out);
  expect({ code, err }).toMatchObject({ code: 0 });
  for (const [page, words] of [
    ['teaching', 'The record holds no reading of the monitor.'],
    ['record', 'The record holds no reading of the monitor.'],
  ] as const) {
    const html = clinic.readOut(`public/ventilator-and-heartbeat/${page}.html`);
    expect(html).toContain(words);
    expect(html).not.toContain('data-figure="vitals"');
  }
});

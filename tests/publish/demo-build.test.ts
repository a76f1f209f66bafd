import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import type { HomeCase } from '../../src/facts/case-facts.js';
import { disk } from '../../src/publish/disk.js';
import { load } from '../../src/publish/load.js';
import type { CaseText } from '../../src/record/case-schema.js';
import type { Clinic } from '../../src/record/clinic-schema.js';
import { program, root, thrice } from '../cli/thrice.js';
import { atHome } from '../record/sample.js';
import { examine } from '../tools/pdf-ua/document.js';
import { PdfObjects, textOf } from '../tools/pdf-ua/objects.js';
import { bytesIn, CASES, DEMO, filesIn, strays } from './clinic.js';
import { pageText, pdfHidden, pdfText } from './pdf-text.js';
import { hasProgram } from './programs.js';
import { plainly, spokenDay, spokenTime } from './spoken.js';

const home = mkdtempSync(join(tmpdir(), 'demo-build-'));
const here = join(home, 'here', 'out');
const there = join(home, 'there', 'out');
const read = (...path: string[]) => readFileSync(join(...path), 'utf8');
const records = new Map(
  CASES.map((name) => [name, parse(read(DEMO, 'cases', name, 'case.yaml')) as CaseText]),
);
const recordOf = (name: string) => records.get(name) as CaseText;
const facts = new Map<string, HomeCase>();

let said: Awaited<ReturnType<typeof thrice>>;
let saidThere: { code: number | null; out: string; err: string };

/** Builds the demo from another folder, time zone and language, on a machine that seems to have no fonts. */
async function buildElsewhere() {
  const noFonts = join(home, 'fonts.conf');
  writeFileSync(noFonts, '<?xml version="1.0"?><fontconfig></fontconfig>');
  const child = spawn(
    process.execPath,
    [program, 'build', relative(home, DEMO), '--out', relative(home, there)],
    {
      cwd: home,
      env: {
        ...process.env,
        TZ: 'America/St_Johns',
        LANG: 'es_ES.UTF-8',
        LC_ALL: 'es_ES.UTF-8',
        FONTCONFIG_FILE: noFonts,
        HOME: home,
      },
    },
  );
  const heard = { out: '', err: '' };
  child.stdout.on('data', (bytes) => {
    heard.out += bytes;
  });
  child.stderr.on('data', (bytes) => {
    heard.err += bytes;
  });
  const code = await new Promise<number | null>((done) => child.on('close', done));
  return { code, ...heard };
}

beforeAll(async () => {
  [said, saidThere] = await Promise.all([thrice('build', DEMO, '--out', here), buildElsewhere()]);
  const loaded = load(
    DEMO,
    disk(() => {}),
  );
  if (!loaded.ok) throw new Error('the demo cannot be read');
  for (const one of loaded.value.cases) facts.set(one.name, atHome(one.facts));
}, 120_000);
afterAll(() => rmSync(home, { recursive: true, force: true }));

/** What stands beside an anonymized record. */
const PACK = [
  ...['record.json', 'vitals.csv', 'questions.txt'],
  ...['ecg_1.edf', 'ecg_1.hea', 'ecg_1.dat'],
];

describe('a build of the demo clinic', () => {
  it('names the cases and the three places, and exits with 0', () => {
    expect(said.code).toBe(0);
    expect(said.err).toBe('');
    expect(said.out.split('\n')).toEqual([
      `Built 6 cases: ${CASES.join(', ')}.`,
      'Printed anew    6 of 6',
      `For the clinic  ${join(here, 'private', 'index.html')}`,
      `To publish      ${join(here, 'public', 'index.html')}`,
      `To put online   ${join(here, 'calendars')} as https://calendars.harebell-lane.example`,
      'To publish at   https://cases-to-learn-from.example',
      ...CASES.map((name) =>
        expect.stringMatching(`^${name}, owner's sheet \\((en|es)\\): .* sentences\\.$`),
      ),
      'Smallest group  1 of the published cases (at least 1 asked for)',
      'Alike           1: cat, no breed, 4 to 7 years, male neutered, wound cleaning, left open, North America',
      'Alike           1: cat, no breed, under 1 years, female, spay, North America',
      'Alike           1: dog, no breed, 4 to 7 years, female neutered, skin lump removal, North America',
      'Alike           1: dog, no breed, 4 to 7 years, male neutered, bladder stone removal, North America',
      'Alike           1: dog, no breed, 8 to 11 years, male neutered, spleen removal, North America',
      'Alike           1: rabbit, no breed, under 1 years, female, spay, North America',
      ...CASES.map((name) => `Small group     ${name}: breed left out`),
    ]);
  });

  it('lists cases by their titles, not in the order of their folders, which bear names', () => {
    const titles = CASES.map((name) => recordOf(name).published?.title).sort();
    const order = (page: string, form: RegExp) => [
      ...new Set(
        [...read(here, 'public', page).matchAll(form)]
          .map(([, title]) => title)
          .filter((title) => titles.includes(title)),
      ),
    ];
    expect(titles).toHaveLength(6);
    expect(order('index.html', />([^<]+)<\/a>/g)).toEqual(titles);
    expect(order('feed.xml', /<title>([^<]+)<\/title>/g)).toEqual(titles);
  });

  it('is quiet where nobody watches', () => {
    expect(saidThere).toMatchObject({ code: 0, err: '' });
    expect(saidThere.out).not.toContain('\u001b');
    expect(saidThere.out).not.toContain('\r');
  });

  it('gives the clinic a sheet and a chart a case, answers where there are questions, and nothing else', () => {
    const sheets = CASES.flatMap((name) =>
      ['html', 'ics', 'pdf'].map((ending) => `${name}/discharge.${ending}`),
    );
    const answers = CASES.filter((name) => recordOf(name).consent.record.given === 'yes').map(
      (name) => `${name}/answers.txt`,
    );
    const charts = CASES.map((name) => `${name}/chart.pdf`);
    expect(documentsIn('private')).toEqual(['index.html', ...sheets, ...charts, ...answers].sort());
  });

  it('publishes what its owner consented to, and nothing else', () => {
    const wanted = CASES.flatMap((name) => {
      const { consent, published } = recordOf(name);
      return (['teaching', 'record'] as const)
        .filter((kind) => consent[kind].given === 'yes')
        .flatMap((kind) =>
          [`${kind}.html`, `${kind}.pdf`].map((file) => `${published?.address}/${file}`),
        )
        .concat(
          consent.teaching.given === 'yes'
            ? ['answers.pdf', 'teaching.data.js'].map((file) => `${published?.address}/${file}`)
            : [],
        )
        .concat(
          consent.record.given === 'yes' ? PACK.map((file) => `${published?.address}/${file}`) : [],
        );
    });
    const pages = [
      ...['index.html', 'species.html', 'procedures.html', 'rhythms.html', 'questions.html'],
      ...['search.html', 'guide.html', 'guia.html', 'privacidad.html', 'privacy.html'],
      ...['feed.xml', 'sitemap.xml', 'robots.txt'],
    ];
    expect(documentsIn('public')).toEqual([...pages, ...library(), ...wanted].sort());
    const clover = recordOf('clover').published?.address as string;
    expect(existsSync(join(here, 'public', clover, 'teaching.html'))).toBe(true);
    expect(existsSync(join(here, 'public', clover, 'record.html'))).toBe(false);
    expect(read(here, 'public', clover, 'teaching.html')).not.toContain('record.html');
  });

  it('leads from each list to each page, and from each page to files that are there', () => {
    for (const page of filesIn(here).filter((path) => path.endsWith('.html'))) {
      for (const [, link] of read(page).matchAll(/(?:href|src)="([^"]+)"/g)) {
        if (/^(https?:|mailto:|tel:)/.test(link as string)) continue;
        const [path = '', place] = decodeURI(link as string).split('#');
        const target = path === '' ? page : join(page, '..', path);
        expect(existsSync(target), `${page}: ${link}`).toBe(true);
        if (place) expect(read(target), `${page}: ${link}`).toContain(` id="${place}"`);
      }
    }
    for (const [tree, kind] of [
      ['private', /discharge\.html/],
      ['public', /teaching\.html|record\.html/],
    ] as const) {
      const pages = documentsIn(tree).filter((path) => kind.test(path));
      const links = read(here, tree, 'index.html').matchAll(/href="([^"#]+)"/g);
      const led = new Set([...links].flatMap(([, link = '']) => (kind.test(link) ? [link] : [])));
      expect(led.size).toBe(pages.length);
    }
  });

  it('says on the public page that a case may stand alone, and why', () => {
    const page = pageText(read(here, 'public', 'index.html')).replace(/\s+/g, ' ');
    expect(page).toContain(
      'is told alike of at least 1 of these cases: a case may stand alone here.',
    );
    expect(page).toContain('its patients are invented');
  });

  it('leaves no temporary folder', () => {
    expect(strays(join(home, 'here'))).toEqual([]);
    expect(strays(join(home, 'there'))).toEqual([]);
  });

  it('writes the same bytes in another time zone, language and folder, and without any font', () => {
    expect(bytesIn(there)).toEqual(bytesIn(here));
  });
});

/** The explanations in both languages, with what is made of other words, and the charts to fill in. */
function library(): string[] {
  const written = readdirSync(join(root, 'content/en/library')).map((name) =>
    name.replace(/md$/, 'html'),
  );
  const charts = ['a4', 'letter'].map((paper) => `anesthesia-chart-${paper}.pdf`);
  const files = [...written, 'index.html', 'rhythms.html', 'glossary.html', ...charts];
  return ['library', 'library/es'].flatMap((folder) => files.map((file) => `${folder}/${file}`));
}

/** The files of a tree without its typefaces and styles. */
const documentsIn = (tree: string) =>
  filesIn(join(here, tree))
    .map((path) => relative(join(here, tree), path))
    .filter((path) => !path.startsWith('assets/'))
    .sort();

/** What the sheet of a case must say of its facts, as a person would write it. */
const OR = ' | ';

function mustSay(name: string): string[] {
  const { home: care, wound, plan, strips, surgery, identity } = facts.get(name) as HomeCase;
  const language = identity.owner.language as 'en' | 'es';
  // In a row of dates the days of the week are short.
  const day = (date: string) =>
    [spokenDay(date, language), spokenDay(date, language, true)].join(OR);
  const forms = { tablet: 'tab', capsule: language === 'en' ? 'capsule' : 'cápsula' };
  const removal = wound.removal?.value;
  const rate = strips.map(({ analysis }) => analysis.rate).find((found) => found !== null);
  return [
    `${spokenDay(surgery.date.value, language)}${language === 'en' ? ' ' : ' de '}${surgery.date.value.slice(0, 4)}`,
    ...(care?.medicines ?? []).flatMap(({ doses, drug, strength, give, lastGiven }) => [
      ...[...doses.value, ...(lastGiven.value === null ? [] : [lastGiven.value])].flatMap(
        (dose) => [spokenDay(dose, language, true), spokenTime(dose, language)],
      ),
      `${drug}, ${strength}`,
      `${give.value} ${forms[give.unit as keyof typeof forms] ?? give.unit}`,
    ]),
    ...(removal ? [removal.proposed, removal.to].map((date) => day(date as string)) : []),
    ...care.rechecks.flatMap(({ on }) => (on.value === null ? [] : [day(on.value)])),
    ...care.awaited.map(({ expected }) => day(expected.value)),
    ...(care.collarUntil.value === null ? [] : [day(care.collarUntil.value)]),
    ...(plan.fullFrom.value === null ? [] : [day(plan.fullFrom.value)]),
    ...(rate ? [` ${Math.round(rate.mean)} `] : []),
  ].map((words) => words.split(OR).map(plainly).join(OR));
}

/** Each day of each medicine with the times of its doses. */
function days(name: string): { day: string; times: string[] }[] {
  const { home: care, identity } = facts.get(name) as HomeCase;
  const language = identity.owner.language as 'en' | 'es';
  return care.medicines.flatMap(({ doses }) =>
    [...new Set(doses.value.map((dose) => dose.slice(0, 10)))].map((date) => ({
      day: plainly(spokenDay(date, language, true)).replaceAll(',', ''),
      times: doses.value
        .filter((dose) => dose.startsWith(date))
        .map((dose) => plainly(spokenTime(dose, language))),
    })),
  );
}

/** The pictures of a PDF in words. */
function picturesIn(pdf: string): string[] {
  return examine(new PdfObjects(readFileSync(pdf)))
    .nodes.filter(({ type }) => type === '/Figure')
    .map(({ dict }) => plainly(textOf(dict['/Alt']) ?? '').replaceAll(',', ''));
}

const numbersIn = (text: string) => new Set(text.match(/\d+(?:[.:,/-]\d+)*/g) ?? []);

describe.each(CASES)('the discharge sheet of %s', (name) => {
  const file = (ending: string) => join(here, 'private', name, `discharge.${ending}`);

  it('states every dose, date, amount and rate of the facts on the page', () => {
    const page = plainly(pageText(read(file('html'))));
    // Doses of one day stand together under it.
    const together = days(name).map(({ day, times }) => [day, ...times].join(' '));
    const due = [...mustSay(name), ...together];
    expect(due.length).toBeGreaterThan(6);
    expect(due.filter((words) => !words.split(OR).some((one) => page.includes(one)))).toEqual([]);
  });

  it('has a box to tick for each dose', () => {
    const doses = (facts.get(name) as HomeCase).home.medicines.flatMap(({ doses }) => doses.value);
    expect(read(file('html')).match(/class="box"/g)).toHaveLength(doses.length);
  });

  it.skipIf(!hasProgram('pdftotext') || !hasProgram('qpdf'))('states them in the PDF too', () => {
    // Boxes in a grid are named by day and hour for whoever cannot see it.
    const pictures = picturesIn(file('pdf'));
    const boxes = days(name).flatMap(({ day, times }) => times.map((time) => `${day} ${time}`));
    expect(boxes.filter((box) => !pictures.includes(box))).toEqual([]);
    const pdf = [plainly(pdfText(file('pdf'))), ...pictures].join(' ');
    expect(
      mustSay(name).filter((words) => !words.split(OR).some((one) => pdf.includes(one))),
    ).toEqual([]);
  });

  it.skipIf(!hasProgram('pdftotext'))('has the same numbers on the page and in the PDF', () => {
    const html = read(file('html'));
    // The PDF's text has the letters of drawings too.
    const drawn = [...html.matchAll(/<text\b[^>]*>([^<]*)<\/text>/g)].map(([, words]) => words);
    const page = numbersIn([pageText(html), ...drawn].join(' '));
    const pdf = numbersIn(
      pdfText(file('pdf')).replace(/^.*\b\d+ \/ \d+$/gm, (foot) => foot.replace(/\d+ \/ \d+$/, '')),
    );
    expect([...pdf].sort()).toEqual([...page].sort());
  });
});

describe('the public documents', () => {
  it.skipIf(!hasProgram('pdftotext'))('say in the PDF every word that the page says', () => {
    // A line of a PDF may end at a hyphen.
    const wordsOf = (text: string) => new Set(plainly(text).split(/[\s-]+/));
    // What is pressed or unfolded is on the page alone; the answers are printed on a sheet of their own. Rows that open
    // at a wish tell a figure, which paper shows as a picture. The charts to fill in have no page.
    const controls = /<(button|summary)\b.*?<\/\1>|<details class="rows">[\s\S]*?<\/details>/gs;
    const prints = documentsIn('public').filter((file) =>
      /^(?!library\/).*(?<!answers)\.pdf$/.test(file),
    );
    for (const path of prints) {
      const html = read(here, 'public', path.replace(/pdf$/, 'html')).replace(controls, '');
      const answers = path.replace(/teaching\.pdf$/, 'answers.pdf');
      const page = wordsOf(pageText(html.slice(html.indexOf('<main'), html.indexOf('</main>'))));
      const pdf = wordsOf(
        [path, answers].map((file) => pdfText(join(here, 'public', file))).join('\n'),
      );
      expect(page.size).toBeGreaterThan(150);
      expect(
        [...page].filter((word) => !pdf.has(word)),
        path,
      ).toEqual([]);
    }
  });
});

/** Whole identifiers of all records, and the telling words of names and addresses, read straight from the YAML. */
function identifiers(): string[] {
  const clinic = parse(read(DEMO, 'clinic.yaml')) as Clinic;
  const whole = [
    clinic.name,
    clinic.phone,
    ...clinic.address,
    clinic.emergency?.name ?? '',
    clinic.emergency?.phone ?? '',
    ...[...records.values()].flatMap(({ record, patient, owner, team }) => [
      record,
      patient.name,
      patient.microchip,
      owner.name,
      owner.phone,
      owner.email,
      owner.address,
      team.surgeon,
      team.anesthesia,
    ]),
  ].filter((text) => text !== undefined);
  const words = [...records.values()]
    .flatMap(({ owner, team, patient }) => [
      owner.name,
      team.surgeon,
      team.anesthesia,
      patient.name,
    ])
    .flatMap((name) => (name ?? '').split(/[ .]+/))
    .filter((word) => word.length > 3);
  return [...new Set([...whole, ...words, 'Harebell', 'Alder Crossing', 'Stillwater'])];
}

/** Each date of the records in the ways in which people write it. */
function dates(): string[] {
  const all = [...records.values()].flatMap(({ surgery, patient, consent, home: care }) => [
    surgery.date,
    ...(patient.born ? [patient.born] : []),
    ...[consent.teaching.on, consent.record.on].filter((day) => day !== undefined),
    ...(care?.medicines ?? []).flatMap(({ first }) => (first ? [first.slice(0, 10)] : [])),
  ]);
  return [...new Set(all)].flatMap((date) => {
    const [year, month, day] = date.split('-').map(Number) as [number, number, number];
    const [, named = ''] = spokenDay(date, 'en').split(', ');
    const [monthName] = named.split(' ');
    return [
      date,
      date.replaceAll('-', ''),
      named,
      `${day} ${monthName}`,
      `${monthName} ${year}`,
      `${month}/${day}/${year}`,
      `${day}.${month}.${year}`,
      spokenDay(date, 'es').split(', ')[1] as string,
    ];
  });
}

const folded = (text: string) => text.toLowerCase().replace(/\s+/g, ' ');
const isWord = /[\p{L}\p{N}]/u;

/** Those of some texts that stand in another as whole words. */
function found(text: string, wanted: readonly string[]): string[] {
  const searched = folded(text);
  return wanted.filter((one) => {
    const words = folded(one);
    for (let at = searched.indexOf(words); at >= 0; at = searched.indexOf(words, at + 1)) {
      const around = [searched[at - 1] ?? ' ', searched[at + words.length] ?? ' '];
      if (!around.some((letter) => isWord.test(letter))) return true;
    }
    return false;
  });
}

describe('the public tree', () => {
  const files = () => filesIn(join(here, 'public'));

  it('is searched for things that the private tree does hold', () => {
    const sheet = read(here, 'private', 'juniper', 'discharge.html');
    expect(found(pageText(sheet), identifiers())).toEqual(
      expect.arrayContaining(['Juniper', '2026-0117', 'Harebell Lane Veterinary Clinic']),
    );
    expect(found(pageText(sheet), dates())).toContain('March 10');
  });

  it('names nobody and no place in any file, file name or byte', () => {
    for (const path of files()) {
      const name = relative(here, path);
      expect(found(name, identifiers()), name).toEqual([]);
      const bytes = readFileSync(path);
      const text = path.endsWith('.html') ? pageText(`${bytes}`) : '';
      expect(found(`${text} ${bytes.toString('latin1')} ${bytes}`, identifiers()), name).toEqual(
        [],
      );
    }
  });

  it('tells no date of the records on any page', () => {
    for (const path of files().filter((file) => /\.(html|css)$/.test(file))) {
      expect(found(read(path), dates()), path).toEqual([]);
    }
  });

  it.skipIf(!['pdftotext', 'pdfinfo', 'qpdf'].every(hasProgram))(
    'names nobody and tells no date in the words, metadata and objects of its PDF files',
    () => {
      const prints = files().filter((path) => path.endsWith('.pdf'));
      // Six teaching pages, six sheets of answers, five records, four charts to fill in.
      expect(prints).toHaveLength(21);
      for (const path of prints) {
        const hidden = pdfHidden(path);
        expect(hidden).toContain('Title');
        const text = `${pdfText(path)} ${hidden}`;
        expect(found(text, [...identifiers(), ...dates()]), path).toEqual([]);
        expect(hidden, path).not.toMatch(/CreationDate|ModDate|CreateDate|Author/);
      }
    },
  );

  it('holds no picture of dots, as no case has a photo: every figure is drawn', () => {
    expect(files().filter((path) => /\.(png|jpe?g|gif|webp)$/i.test(path))).toEqual([]);
  });

  it('is on the other side of the wall from the machine that built it', () => {
    for (const path of filesIn(here)) {
      const bytes = readFileSync(path).toString('latin1');
      expect(bytes.includes(root.slice(0, -1)) || bytes.includes(home), path).toBe(false);
    }
  });
});

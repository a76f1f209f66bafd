import {
  cpSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:http';
import { type AddressInfo, createConnection } from 'node:net';
import { networkInterfaces, tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PreviewState } from '../../src/live/preview/contract.js';
import { openPreview } from '../../src/preview/preview.js';
import { disk } from '../../src/publish/disk.js';
import { house } from '../../src/publish/house.js';
import { demoSite } from '../demo-site.js';
import { bytesIn, TestClinic } from '../publish/clinic.js';
import { root, spawned } from './thrice.js';
import { asking, type Watched, watching, watchingBy } from './watch.js';

let clinic: TestClinic;
let watched: Watched;

beforeAll(async () => {
  clinic = new TestClinic('juniper');
  watched = await watching(clinic.folder);
});
afterAll(async () => {
  await watched.end();
  clinic.remove();
});

const SHEET = '/private/juniper/discharge.html';
const ask = (path: string, how?: Parameters<typeof asking>[2]) => asking(watched.port, path, how);

it('serves every file of every case as a build writes it, byte for byte', async () => {
  const out = await demoSite();
  const preview = openPreview(
    {
      cases: join(house.root, 'demo-data'),
      environment: {},
      today: () => '2026-11-01',
      frameOf: () => [],
    },
    disk(() => undefined),
  );
  const different: string[] = [];
  let same = 0;
  for (const entry of readdirSync(out, { withFileTypes: true, recursive: true })) {
    const path = relative(out, join(entry.parentPath, entry.name));
    // Beside the cases: lists, library and search, which the preview has not.
    const isOfCase = /^(private|public)\/(?!library\/).+\//.test(path) && !/search-/.test(path);
    if (!entry.isFile() || !isOfCase) continue;
    const served = await preview.serve(path);
    if (served.kind === 'file' && readFileSync(join(out, path)).equals(served.bytes)) same++;
    else different.push(path);
  }
  await preview.close();
  expect(different).toEqual([]);
  // Six cases with a sheet, its PDF, calendar and chart, and what goes with them.
  expect(same).toBeGreaterThan(100);
}, 240_000);

it('asks about a surgery after today, beside its page and in the list, and of that day no more', async () => {
  const other = new TestClinic('juniper');
  const said = async (day: string) => {
    const preview = openPreview(
      { cases: other.folder, environment: {}, today: () => day, frameOf: () => [] },
      disk(() => undefined),
    );
    const heard = (path: string | null) =>
      new Promise<PreviewState>((tell) => {
        const silent = preview.listen({
          path,
          tell: (state) => {
            if (state.of === 'list' ? state.cases.some(({ patient }) => !patient) : !state.token)
              return;
            silent();
            tell(state);
          },
        });
      });
    const [page, list] = [await heard('private/juniper/discharge.html'), await heard(null)];
    await preview.close();
    return [
      page.of === 'page' ? page.warnings.map(({ number }) => number) : null,
      list.of === 'list' ? list.cases.map(({ warnings }) => warnings) : null,
    ];
  };
  // case.yaml: surgery on 2026-03-10.
  expect(await said('2026-03-09')).toEqual([['T373'], [1]]);
  expect(await said('2026-03-10')).toEqual([[], [0]]);
  other.remove();
}, 60_000);

it('takes up a change of the program’s own words, and tells where they cannot be read', async () => {
  const copy = mkdtempSync(join(tmpdir(), 'program-'));
  for (const part of ['dist', 'content', 'templates', '.eleventy.js', 'package.json']) {
    cpSync(join(root, part), join(copy, part), { recursive: true });
  }
  symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'));
  const other = await watchingBy(join(copy, 'dist/cli/main.js'), clinic.folder);
  const page = async () => (await asking(other.port, SHEET)).body.toString();
  const words = join(copy, 'content/en/owner.yaml');
  const text = readFileSync(words, 'utf8');
  const [said = ''] = /Home care for/.exec(text) ?? [];
  expect(await page()).toContain('Home care for Juniper');
  writeFileSync(words, text.replace(said, 'Thistledown for'));
  expect(await page()).toContain('Thistledown for Juniper');
  writeFileSync(words, text.replace(said, '"'));
  expect(await page()).toMatch(/owner\.yaml:\d+/);
  writeFileSync(words, text);
  expect(await page()).toContain('Home care for Juniper');
  await other.end();
  rmSync(copy, { recursive: true });
}, 120_000);

describe('the server', () => {
  it('answers by each name of this machine alone', async () => {
    for (const name of ['localhost', '127.0.0.1', '[::1]', 'LOCALHOST']) {
      const { status } = await ask(SHEET, { headers: { host: `${name}:${watched.port}` } });
      expect(status, name).toBe(200);
    }
    for (const host of [
      'example.org',
      `example.org:${watched.port}`,
      'localhost:1',
      `localhost.example.org:${watched.port}`,
      '0.0.0.0',
    ]) {
      const { status, body } = await ask(SHEET, { headers: { host } });
      expect([status, body.includes('Juniper')], host).toEqual([403, false]);
    }
  });

  it('listens on no address that others reach', async () => {
    const others = Object.values(networkInterfaces())
      .flat()
      .flatMap((one) =>
        one && !one.internal && !one.address.startsWith('fe80') ? [one.address] : [],
      );
    for (const host of [...others, '127.0.0.2']) {
      const reached = await new Promise<boolean>((done) => {
        const socket = createConnection({ host, port: watched.port, timeout: 2000 });
        socket.on('connect', () => done(true));
        for (const event of ['error', 'timeout']) socket.on(event, () => done(false));
      });
      expect(reached, host).toBe(false);
    }
  });

  it.each([
    '/../../../etc/passwd',
    '/private/../../clinic.yaml',
    '/private/juniper/../juniper/case.yaml',
    '/private/juniper/%2e%2e/%2e%2e/clinic.yaml',
    '/private/juniper/..%2f..%2fclinic.yaml',
    '/private/juniper/..%5c..%5cclinic.yaml',
    '/private/juniper/discharge.html%00.png',
    '/%E0%A4%A',
    '//etc/passwd',
    '/see/../../../etc/passwd',
    '/preview/../../package.json',
    '/private/assets/../../../package.json',
  ])('leads nowhere else by %s', async (path) => {
    const { status, body } = await ask(path);
    expect([400, 404]).toContain(status);
    expect(body.toString()).not.toMatch(/root:|pseudonyms|"version"/);
  });

  it.each(['case.yaml', 'strip.edf', 'teaching.md'])(
    'gives out no file of the record: %s',
    async (file) => {
      expect((await ask(`/private/juniper/${file}`)).status).toBe(404);
    },
  );

  it.each(['POST', 'PUT', 'DELETE', 'OPTIONS'])('refuses %s', async (method) => {
    expect((await ask(SHEET, { method })).status).toBe(405);
  });

  it('answers HEAD with no body', async () => {
    const { status, body, headers } = await ask(SHEET, { method: 'HEAD' });
    expect([status, body.length]).toEqual([200, 0]);
    expect(Number(headers['content-length'])).toBeGreaterThan(1000);
  });

  it('gives nothing to pages from elsewhere, and keeps them from showing it', async () => {
    for (const site of ['cross-site', 'same-site']) {
      const foreign = { 'sec-fetch-site': site, 'sec-fetch-dest': 'script' };
      expect((await ask(SHEET, { headers: foreign })).status, site).toBe(403);
    }
    const { headers } = await ask(SHEET);
    expect(headers).toMatchObject({
      'cache-control': 'no-store',
      'cross-origin-resource-policy': 'same-origin',
      'x-frame-options': 'SAMEORIGIN',
    });
  });

  it('writes nothing', async () => {
    const before = bytesIn(clinic.folder);
    await ask(SHEET);
    await ask('/private/juniper/discharge.pdf');
    await ask('/public/ventilator-and-heartbeat/record.html');
    expect(bytesIn(clinic.folder)).toEqual(before);
    expect(readdirSync(clinic.home)).toEqual(['clinic']);
  });
});

describe('the command', () => {
  it.each(['SIGINT', 'SIGTERM'] as const)('ends clean on %s, with a page open', async (signal) => {
    const other = await watching(clinic.folder);
    const open = asking(other.port, '/preview/state').catch(() => 'closed');
    await asking(other.port, SHEET);
    expect(await other.end(signal)).toBe(0);
    await open;
    expect(other.said()).not.toMatch(/Error/);
  });

  it('takes the port that it is told, and says where that one is in use', async () => {
    const taken = createServer().listen(0, '127.0.0.1');
    await new Promise((done) => taken.on('listening', done));
    const { port } = taken.address() as AddressInfo;
    const { code, err } = spawned(['watch', clinic.folder, '--port', `${port}`]);
    expect([code, err]).toEqual([1, expect.stringContaining('in use')]);
    await new Promise((done) => taken.close(done));
    const other = await watching(clinic.folder, '--port', `${port}`);
    expect(other.port).toBe(port);
    await other.end();
  });

  it.each(['70000', 'http', '-1'])('refuses the port %s', (port) => {
    const { code, err } = spawned(['watch', clinic.folder, `--port=${port}`]);
    expect([code, err]).toEqual([2, expect.stringContaining('--port')]);
  });

  it('starts with a clinic that cannot be read, and says why on the terminal too', async () => {
    clinic.edit('clinic.yaml', /paper: .*/, 'paper: A7');
    const other = await watching(clinic.folder);
    const { status, body } = await asking(other.port, SHEET);
    expect([status, body.toString()]).toEqual([503, expect.stringContaining('clinic.yaml:')]);
    await other.end();
    expect(other.said()).toContain('clinic.yaml:');
    clinic.restoreClinic();
  });
});

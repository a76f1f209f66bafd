import { readdirSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, relative, sep } from 'node:path';
import type { Page } from 'playwright-core';

/** Pages of a tree as paths in it. */
export const pagesOf = (tree: string): string[] =>
  readdirSync(tree, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.html'))
    .map((entry) => relative(tree, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();

/** What a page complained of, what it asked for, and what its policy refused. */
export interface Heard {
  readonly complaints: string[];
  readonly requests: string[];
}

/** Listens to a page. A refusal of its policy is a complaint, also one that no console shows. */
export async function listen(page: Page): Promise<Heard> {
  const heard: Heard = { complaints: [], requests: [] };
  page.on('console', (message) => heard.complaints.push(`${page.url()}: ${message.text()}`));
  page.on('pageerror', (error) => heard.complaints.push(`${page.url()}: ${error.message}`));
  page.on('request', (request) => heard.requests.push(request.url()));
  page.on('requestfailed', (request) => {
    // What is not needed any more when the next page is opened is no fault.
    if (request.failure()?.errorText === 'net::ERR_ABORTED') return;
    heard.complaints.push(`not loaded: ${request.url()}`);
  });
  page.on('response', (response) => {
    if (response.status() >= 400) heard.complaints.push(`${response.status()}: ${response.url()}`);
  });
  await page.addInitScript(`addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
    console.warn('refused: ' + violatedDirective + ' ' + blockedURI))`);
  return heard;
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css',
  '.js': 'text/javascript',
  '.woff2': 'font/woff2',
  '.ttf': 'font/ttf',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.xml': 'application/xml',
  '.json': 'application/json',
  '.pdf': 'application/pdf',
};

/** Serves a tree under a path of a web server; what lies outside that path is not found. */
export async function serve(tree: string, under: string) {
  const server = createServer(async ({ url = '' }, answer) => {
    const path = decodeURIComponent(new URL(url, 'http://x').pathname);
    const file = path.startsWith(under) ? path.slice(under.length) || 'index.html' : null;
    const bytes = file === null ? null : await readFile(join(tree, file)).catch(() => null);
    answer.writeHead(bytes ? 200 : 404, {
      'content-type': TYPES[extname(file ?? '')] ?? 'application/octet-stream',
    });
    answer.end(bytes ?? 'not found');
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  return {
    home: `http://127.0.0.1:${port}${under}`,
    close: () => new Promise((done) => server.close(done)),
  };
}

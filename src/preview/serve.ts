import { readFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { extname, join } from 'node:path';
import { SHOWN_AT, STATE_AT, type ToldProblem } from '../live/preview/contract.js';
import { house } from '../publish/house.js';
import { bad, good, type Outcome } from '../record/problem.js';
import { admitted } from './guard.js';
import type { Preview } from './preview.js';

/** Ways to this machine that lead from nowhere else. */
const LOOPBACK = ['127.0.0.1', '::1'] as const;

/** A free port for one loopback address may be taken on the other. Not a clinical number. */
const TRIES = 10;

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.hea': 'text/plain; charset=utf-8',
  '.ics': 'text/calendar; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.pdf': 'application/pdf',
  '.woff2': 'font/woff2',
  '.ttf': 'font/ttf',
};

/** On every answer: no other site may show it, take it in or keep it. */
const HEADERS = {
  'Cache-Control': 'no-store',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'SAMEORIGIN',
};

/** For a minute: a program of another version may use the same port later. */
const ASSETS_KEPT = 'private, max-age=60';

/** Pages of the preview itself: their scripts and styles come from here, and so does what they show. */
const OWN_POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; connect-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

export interface Serving {
  readonly port: number;
  readonly end: () => Promise<void>;
}

/**
 * Serves a preview to this machine alone.
 * @param wanted the port; 0 for one that is free
 */
export async function servePreview(preview: Preview, wanted: number): Promise<Outcome<Serving>> {
  for (let attempt = 1; ; attempt++) {
    const servers: Server[] = [];
    try {
      let port = wanted;
      for (const address of LOOPBACK) {
        const server = createServer((request, response) => {
          answer(preview, port, request, response).catch((error: unknown) => {
            // A bug, not a problem of the user's: it is shown where the page would be.
            if (!response.headersSent) plain(response, 500, String((error as Error).stack));
            else response.destroy();
          });
        });
        const got = await listening(server, address, port);
        if (got === null) continue;
        port = got;
        servers.push(server);
      }
      return good({ port, end: async () => void (await Promise.all(servers.map(ended))) });
    } catch (error) {
      await Promise.all(servers.map(ended));
      const { code } = error as NodeJS.ErrnoException;
      if (code === 'EADDRINUSE' && wanted === 0 && attempt < TRIES) continue;
      if (code !== 'EADDRINUSE' && code !== 'EACCES') throw error;
      return bad({
        kind: 'a port that cannot be had',
        file: `port ${wanted}`,
        field: '--port',
        found: code === 'EACCES' ? 'a port that is not open to you' : 'a port that is in use',
        expected: 'a free port of this machine',
        mend: 'Choose another, or leave --port out.',
      });
    }
  }
}

/** The port that a server got; null where this machine has no such address. */
const listening = (server: Server, host: string, port: number): Promise<number | null> =>
  new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      if (host === '::1' && (error.code === 'EADDRNOTAVAIL' || error.code === 'EAFNOSUPPORT')) {
        resolve(null);
      } else reject(error);
    });
    server.listen({ host, port, exclusive: true }, () => {
      const address = server.address();
      resolve(address !== null && typeof address === 'object' ? address.port : port);
    });
  });

const ended = (server: Server): Promise<void> =>
  new Promise((resolve) => {
    server.close(() => resolve());
    server.closeAllConnections();
  });

async function answer(
  preview: Preview,
  port: number,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
  const { method, headers, url } = request;
  const one = (name: string) => headers[name] as string | undefined;
  const destination = one('sec-fetch-dest');
  const entry = admitted(
    { method, url, host: headers.host, site: one('sec-fetch-site'), destination },
    port,
  );
  if (!entry.ok) return plain(response, entry.status, entry.why);
  const { path, query } = entry;
  if (`/${path}` === STATE_AT) return stream(preview, query.get('of'), request, response);
  if (path === '' || `/${path}`.startsWith(SHOWN_AT)) {
    response.setHeader('Content-Security-Policy', OWN_POLICY);
    return send(response, 200, '.html', own('preview.html'));
  }
  const part = OWN[path];
  if (part) return send(response, 200, extname(path), part());
  // A page in a window of its own is shown within the preview, so that it follows its case.
  if (destination === 'document' && extname(path) === '.html') {
    response.writeHead(302, { Location: `${SHOWN_AT}${url?.slice(1)}` }).end();
    return;
  }
  // What all pages share tells of no case, and would be fetched anew with every change.
  if (/^(private|public)\/assets\//.test(path)) response.setHeader('Cache-Control', ASSETS_KEPT);
  const served = await preview.serve(path);
  if (served.kind === 'file') return send(response, 200, extname(path), served.bytes);
  if (served.kind === 'problems')
    return plain(response, 503, served.problems.map(inText).join('\n\n'));
  plain(
    response,
    404,
    'This page is not in the preview, which shows the documents of cases alone. "thrice build" makes the others.',
  );
}

const own = (name: string): Uint8Array => readFileSync(join(house.templates, 'preview', name));

/** What the preview's own pages consist of. */
const OWN: Readonly<Record<string, () => Uint8Array>> = {
  'preview/preview.css': () => own('preview.css'),
  'preview/preview.js': () => readFileSync(join(house.live, 'preview.js')),
};

/** Server-sent events (WHATWG HTML): each is the whole state. */
function stream(
  preview: Preview,
  path: string | null,
  request: IncomingMessage,
  response: ServerResponse,
): void {
  response.writeHead(200, { 'Content-Type': 'text/event-stream; charset=utf-8' });
  if (request.method === 'HEAD') {
    response.end();
    return;
  }
  response.flushHeaders();
  const stop = preview.listen({
    path,
    tell: (state) => response.write(`data: ${JSON.stringify(state)}\n\n`),
  });
  request.on('close', stop);
}

function send(response: ServerResponse, status: number, ending: string, bytes: Uint8Array): void {
  response.writeHead(status, {
    'Content-Type': TYPES[ending] ?? 'application/octet-stream',
    'Content-Length': bytes.length,
  });
  response.end(response.req.method === 'HEAD' ? undefined : bytes);
}

const plain = (response: ServerResponse, status: number, text: string): void =>
  send(response, status, '.txt', Buffer.from(`${text}\n`));

const inText = ({ number, place, field, frame, found, expected, mend }: ToldProblem): string =>
  [
    `${place}${field === null ? '' : `  ${field}`}  [${number}]`,
    ...frame,
    `  found     ${found}`,
    `  expected  ${expected}`,
    `  to mend   ${mend}`,
  ].join('\n');

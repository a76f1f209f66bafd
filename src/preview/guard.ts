/** What a request tells of itself. */
export interface Request {
  readonly method: string | undefined;
  readonly host: string | undefined;
  /** As the client wrote it. */
  readonly url: string | undefined;
  /** `Sec-Fetch-Site` (W3C Fetch Metadata): `same-site` for another port of this machine. Older browsers and other programs do not send it. */
  readonly site: string | undefined;
  /** `Sec-Fetch-Dest`: `document` for a window of its own. */
  readonly destination: string | undefined;
}

export type Admission =
  | { readonly ok: true; readonly path: string; readonly query: URLSearchParams }
  | { readonly ok: false; readonly status: number; readonly why: string };

/** Names under which this machine alone is reached. */
const OWN_NAMES = ['127.0.0.1', 'localhost', '[::1]'];

/** RFC 9110, section 4.2.1. Not a clinical number. */
const HTTP = 80;

/**
 * Lets in what a browser on this machine asks for on its user's behalf. A page from elsewhere may have its own name lead
 * here (DNS rebinding), but cannot change the name that its browser sends along; nor may it take our files as its scripts
 * and pictures. A path that leads upwards is refused, though no path ever reaches the disk.
 */
export function admitted(request: Request, port: number): Admission {
  const { method, host, url = '/', site, destination } = request;
  if (method !== 'GET' && method !== 'HEAD') return refused(405, 'Only GET and HEAD are answered.');
  // A browser leaves out the port that goes without saying.
  const named = port === HTTP && host && !/:\d+$/.test(host) ? `${host}:${port}` : host;
  if (!OWN_NAMES.some((name) => named?.toLowerCase() === `${name}:${port}`)) {
    return refused(403, 'Only requests to this machine by its own name are answered.');
  }
  if ((site === 'cross-site' || site === 'same-site') && destination !== 'document') {
    return refused(403, 'Pages from elsewhere get nothing from here.');
  }
  const [written = '', query = ''] = url.split('?', 2);
  const path = decoded(written);
  if (path === null || !path.startsWith('/')) return refused(400, 'This address cannot be read.');
  if (/[\\\0]/.test(path) || path.split('/').some((part) => part === '..' || part === '.')) {
    return refused(400, 'An address may not lead upwards.');
  }
  return { ok: true, path: path.slice(1), query: new URLSearchParams(query) };
}

const refused = (status: number, why: string): Admission => ({ ok: false, status, why });

function decoded(path: string): string | null {
  try {
    return decodeURIComponent(path);
  } catch {
    return null;
  }
}

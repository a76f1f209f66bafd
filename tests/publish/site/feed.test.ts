import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { uuid } from '../../../src/publish/site/feed.js';
import { demoSite } from '../../demo-site.js';
import { DEMO } from '../clinic.js';
import { hasProgram } from '../programs.js';

const tree = join(await demoSite(), 'public');

interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly text: string;
  readonly children: readonly Element[];
}

/** An XML file as Python's parser reads it: a parser that is none of ours, and that refuses what is not well-formed. */
function xml(file: string): Element {
  const program = `
import json, sys
import xml.etree.ElementTree as E
def told(e):
    return {'name': e.tag, 'attributes': e.attrib, 'text': e.text or '', 'children': [told(c) for c in e]}
print(json.dumps(told(E.parse(sys.argv[1]).getroot())))`;
  const run = spawnSync('python3', ['-c', program, file], { encoding: 'utf8' });
  expect(run.stderr).toBe('');
  return JSON.parse(run.stdout) as Element;
}

const ATOM = '{http://www.w3.org/2005/Atom}';
const named = ({ children }: Element, name: string) =>
  children.filter((child) => child.name === ATOM + name);
const one = (element: Element, name: string): Element => {
  const found = named(element, name);
  expect(found, name).toHaveLength(1);
  return found[0] as Element;
};

describe.skipIf(!hasProgram('python3'))('the feed', () => {
  const feed = hasProgram('python3') ? xml(join(tree, 'feed.xml')) : (null as never);
  const entries = () => named(feed, 'entry');

  it('has what RFC 4287 demands of a feed (4.1.1): one id, one title, one updated, an author', () => {
    expect(feed.name).toBe(`${ATOM}feed`);
    for (const name of ['id', 'title', 'updated']) one(feed, name);
    expect(one(one(feed, 'author'), 'name').text).not.toBe('');
    const self = named(feed, 'link').filter(({ attributes }) => attributes.rel === 'self');
    expect(self.map(({ attributes }) => attributes.href)).toEqual([
      'https://cases-to-learn-from.example/feed.xml',
    ]);
  });

  it('has what it demands of an entry (4.1.2): one id, one title, one updated, one alternate link of a type and language', () => {
    expect(entries()).toHaveLength(11);
    for (const entry of entries()) {
      for (const name of ['id', 'title', 'updated', 'summary']) one(entry, name);
      const alternate = named(entry, 'link').filter(
        ({ attributes }) => attributes.rel === 'alternate',
      );
      expect(alternate).toHaveLength(1);
    }
  });

  it('has ids that are IRIs, none of them twice (4.2.6)', () => {
    const ids = [feed, ...entries()].map((element) => one(element, 'id').text);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^urn:uuid:[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/);
  });

  it('tells in every date construct (3.3, RFC 3339) the one day that the clinic states', () => {
    const { site } = parse(readFileSync(join(DEMO, 'clinic.yaml'), 'utf8')) as {
      site: { issued: string };
    };
    for (const element of [feed, ...entries()]) {
      expect(one(element, 'updated').text).toBe(`${site.issued}T00:00:00Z`);
    }
    expect(
      new Set(readFileSync(join(tree, 'feed.xml'), 'utf8').match(/\d{4}-\d\d-\d\d(?=T)/g)),
    ).toEqual(new Set([site.issued]));
  });

  it('leads to pages that are there, and says which of them are drafts', () => {
    for (const entry of entries()) {
      const { href = '' } = one(entry, 'link').attributes;
      const file = join(tree, new URL(href).pathname);
      expect(existsSync(file), href).toBe(true);
      const isDraft = /class="draft"/.test(readFileSync(file, 'utf8'));
      expect(/Draft\./.test(one(entry, 'summary').text), href).toBe(isDraft);
    }
  });

  it('is named in the head of every page', () => {
    for (const file of ['index.html', 'guide.html', 'when-a-tie-slips/teaching.html']) {
      const [, href = ''] =
        /<link rel="alternate" type="application\/atom\+xml"[^>]* href="([^"]+)"/.exec(
          readFileSync(join(tree, file), 'utf8'),
        ) ?? [];
      expect(join(tree, file, '..', href)).toBe(join(tree, 'feed.xml'));
    }
  });
});

describe.skipIf(!hasProgram('python3'))('the map of the site', () => {
  const MAP = '{http://www.sitemaps.org/schemas/sitemap/0.9}';
  const places = () =>
    xml(join(tree, 'sitemap.xml')).children.map(({ name, children }) => {
      expect(name).toBe(`${MAP}url`);
      expect(children.map((child) => child.name)).toEqual([`${MAP}loc`]);
      return children[0]?.text ?? '';
    });

  it('names pages that are there, by whole addresses, each once', () => {
    expect(places().length).toBeGreaterThan(6);
    expect(new Set(places()).size).toBe(places().length);
    for (const place of places()) {
      const { origin, pathname } = new URL(place);
      expect(origin).toBe('https://cases-to-learn-from.example');
      expect(existsSync(join(tree, pathname === '/' ? 'index.html' : pathname)), place).toBe(true);
    }
  });

  it('names no page that asks not to be listed, and no draft', () => {
    for (const place of places()) {
      const { pathname } = new URL(place);
      const html = readFileSync(join(tree, pathname === '/' ? 'index.html' : pathname), 'utf8');
      expect(html, place).not.toContain('noindex');
      expect(html, place).not.toContain('class="draft"');
    }
    expect(readFileSync(join(tree, 'when-a-tie-slips/teaching.html'), 'utf8')).toContain(
      '<meta name="robots" content="noindex">',
    );
  });

  it('is named to crawlers (RFC 9309, sitemaps.org)', () => {
    expect(readFileSync(join(tree, 'robots.txt'), 'utf8').split('\n')).toEqual([
      'User-agent: *',
      'Allow: /',
      'Sitemap: https://cases-to-learn-from.example/sitemap.xml',
      '',
    ]);
  });
});

it('makes a UUID of a name as RFC 9562 shows it (appendix A.4)', () => {
  expect(uuid('6ba7b810-9dad-11d1-80b4-00c04fd430c8', 'www.example.com')).toBe(
    'urn:uuid:2ed6657d-e927-568b-95e1-2665a8aea6a2',
  );
});

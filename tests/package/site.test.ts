/**
 * The reference site as `npm run docs` made it, in a real browser: its guides are found by the words a new user looks
 * for, no page overflows a phone, no link is dead. With MOTESCALE_SITE=1, as CI does after it has made the site.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { filesBelow } from '../files.ts';

const site = 'docs/site';
const types: Record<string, string> = { html: 'text/html; charset=utf-8', css: 'text/css', js: 'text/javascript' };

/** What is typed into the search, and the page that is among the first ten found. */
const searches: readonly (readonly [string, string])[] = [
  ['karl fischer', 'documents/water.html'],
  ['commissioning', 'documents/commissioning.html'],
  ['forty lines', 'documents/service.html'],
  ['gateway', 'documents/gateways.html'],
  ['duktape', 'documents/gateways.html'],
  ['jupyter', 'documents/notebooks.html'],
  ['notebook', 'documents/notebooks.html'],
  ['strict policy', 'documents/charts.html'],
  ['two instruments', 'documents/laboratory.html'],
  ['laboratory', 'documents/laboratory.html'],
  ['how sure', 'documents/sure.html'],
  ['getting worse', 'documents/trends.html'],
  ['upgrading', 'documents/upgrading.html'],
  ['words of the trade', 'documents/words.html'],
  ['script tag', 'documents/scripts.html'],
  ['safety', 'documents/safety.html'],
];

const pages = existsSync(site) ? filesBelow(site, '.html').map((file) => file.slice(site.length + 1)) : [];
/** The pages that are not made of one name each. */
const guides = pages.filter((page) => /^(documents|modules|playground)\/|^index/.test(page));

/** Links and pictures of a page that lead nowhere on the site. */
function deadLinks(page: string): string[] {
  const targets = [...readFileSync(join(site, page), 'utf8').matchAll(/ (?:href|src)="([^"]+)"/g)].map(
    ([, to]) => to as string,
  );
  const own = targets.filter((to) => !/^(https?|mailto|data):/.test(to));
  return own.filter((to) => {
    const [file = '', anchor = ''] = to.split('#');
    const path = file === '' ? join(site, page) : join(site, page, '..', file);
    if (!existsSync(path)) return true;
    return anchor !== '' && !readFileSync(path, 'utf8').includes(`id="${decodeURIComponent(anchor)}"`);
  });
}

describe.skipIf(process.env.MOTESCALE_SITE !== '1')('the site', () => {
  let server: Server;
  let browser: Browser;
  let page: Page;
  let address: string;

  beforeAll(async () => {
    server = createServer(({ url = '' }, answer) => {
      const file = join(site, decodeURIComponent(url.replace(/[?#].*/, '')));
      answer.statusCode = existsSync(file) ? 200 : 404;
      answer.setHeader('content-type', types[file.split('.').pop() as string] ?? 'text/plain');
      answer.end(answer.statusCode === 200 ? readFileSync(file) : '');
    });
    await new Promise<void>((listening) => {
      server.listen(0, '127.0.0.1', listening);
    });
    address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    browser = await puppeteer.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
    page = await browser.newPage();
    await page.setViewport({ width: 390, height: 844 });
  }, 120000);

  afterAll(async () => {
    await browser?.close();
    server?.close();
  });

  test.each(searches)('%s is found on %s', async (words, wanted) => {
    await page.goto(`${address}/index.html`);
    await page.click('#tsd-search-trigger');
    await page.waitForSelector('#tsd-search-input', { visible: true });
    await page.type('#tsd-search-input', words);
    await page.waitForFunction('document.querySelector("#tsd-search-results a")').catch(() => undefined);
    const found = await page.$$eval('#tsd-search-results a', (links) => links.map((link) => link.getAttribute('href')));
    expect(found.map((link) => link?.replace(/^\.\/|#.*/g, ''))).toContain(wanted);
  });

  test.each(guides)('%s fits a phone', async (name) => {
    await page.goto(`${address}/${name}`);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
  });

  test('no dead link', () => {
    expect(pages.length).toBeGreaterThan(500);
    const dead = pages.flatMap((name) => deadLinks(name).map((link) => `${name}: ${link}`));
    expect(dead).toEqual([]);
  });
});

/**
 * The playground in a real browser: clicked, typed into, under its own policy. With `MOTESCALE_ALL_ENGINES=1`, in
 * Chromium and in Firefox where they are installed.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const browsers = [
  ['chrome', '/usr/bin/chromium'],
  ['firefox', '/usr/bin/firefox-esr'],
] as const;
const types: Record<string, string> = { html: 'text/html; charset=utf-8', css: 'text/css', js: 'text/javascript' };

/** A file of the page as it lies beside the site: the library's script stands among the page's own. */
function fileOf(name: string): string | null {
  const file = name === 'motescale.global.js' ? `dist/scripts/${name}` : `docs/playground/${name}`;
  return /^[\w.]+$/.test(name) && existsSync(file) ? readFileSync(file, 'utf8') : null;
}

describe.each(browsers)('in %s', (browserName, executablePath) => {
  const wanted = process.env.MOTESCALE_ALL_ENGINES === '1' && existsSync(executablePath);

  describe.skipIf(!wanted)('the playground', () => {
    let server: Server;
    let browser: Browser;
    let page: Page;
    const faults: string[] = [];

    beforeAll(async () => {
      server = createServer(({ url = '' }, answer) => {
        const name = url.slice(1);
        const text = fileOf(name);
        answer.statusCode = text === null ? 404 : 200;
        answer.setHeader('content-type', types[name.split('.').pop() ?? ''] ?? 'text/plain').end(text ?? '');
      });
      await new Promise<void>((listening) => {
        server.listen(0, '127.0.0.1', listening);
      });
      browser = await puppeteer.launch({ browser: browserName, executablePath, args: ['--no-sandbox'] });
      page = await browser.newPage();
      page.on('pageerror', (error) => faults.push(String(error)));
      page.on('console', (message) => {
        if (message.type() === 'error') faults.push(message.text());
      });
      await page.setViewport({ width: 390, height: 844 });
      await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/index.html`);
    }, 120000);

    afterAll(async () => {
      await browser?.close();
      server?.close();
    });

    const text = (selector: string) => page.$eval(selector, (element) => element.textContent ?? '');
    const rows = async () =>
      Object.fromEntries(
        await page.$$eval('#rows tr', (all) =>
          all
            .map((row) => [...row.children].map(({ textContent }) => textContent))
            .map(([name, ...rest]) => [name, rest]),
        ),
      );

    async function paste(selector: string, value: string): Promise<void> {
      await page.$eval(selector, (element) => {
        (element as unknown as { value: string }).value = '';
      });
      await page.type(selector, value);
    }

    test('a click works out the counts that stand there', async () => {
      await page.click('button');
      expect(await text('#status')).toContain('ISO 4406 18/16/13');
      const told = await rows();
      expect(told['NAS 1638']?.[0]).toBe('8');
      expect(Object.keys(told).length).toBe(9);
      expect(await page.$$eval('#picture circle', (points) => points.length)).toBe(6);
      expect(await text('#picture title')).toContain('14 µm: 43.3');
      expect(await text('#sheet')).toContain('ISO 4406 18/16/13: met by the counts');
    }, 60000);

    test('a code pasted in a sentence: what must hold, what is likely', async () => {
      await paste('#text', 'Lock 3, ISO 4406: 18/15/11');
      await page.click('button');
      expect((await rows())['NAS 1638']?.slice(2).map((cell: string) => cell.split(';')[0])).toEqual([
        '6 to >12',
        '6 to 10',
      ]);
      expect(await page.$$eval('#picture rect', (bands) => bands.length)).toBe(3);
    }, 60000);

    test('by the keyboard alone; what cannot be read is said, and its field found', async () => {
      await paste('#text', '4 1890\n6 2402');
      for (let field = 0; field < 5; field += 1) await page.keyboard.press('Tab');
      await page.keyboard.press('Enter');
      expect(await text('#status')).toMatch(/^Not worked out\. counts\[6\]/);
      expect(await page.evaluate('document.activeElement.id')).toBe('text');
      expect(await page.$eval('#text', (field) => field.getAttribute('aria-invalid'))).toBe('true');
      expect(await page.$eval('#answer', (answer) => answer.hasAttribute('hidden'))).toBe(true);
    }, 60000);

    // Firefox packs its pages, so that they cannot be counted
    test.runIf(browserName === 'chrome')(
      'prints codes and sizes on a page, and the sheet on one',
      async () => {
        await page.reload();
        await page.click('button');
        const pages = async () => {
          const pdf = Buffer.from(await page.pdf({ format: 'A4', preferCSSPageSize: true })).toString('latin1');
          return pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length;
        };
        expect(await pages()).toBe(2);
        await page.$eval('.sheet', (sheet) => sheet.parentElement?.removeChild(sheet));
        await page.$eval('#sheet', (sheet) => sheet.remove());
        expect(await pages()).toBe(1);
        await page.reload();
      },
      60000,
    );

    test('nothing overflows a phone, every field has a label, and the policy was never broken', async () => {
      await paste('#text', '4 1890\n6 402\n14 33');
      await page.click('button');
      expect(await page.evaluate('document.documentElement.scrollWidth <= innerWidth')).toBe(true);
      const unlabelled =
        '[...document.querySelectorAll("textarea, input, select")].filter((f) => f.labels.length === 0).length';
      expect(await page.evaluate(unlabelled)).toBe(0);
      const forbidden =
        'new Promise((done) => { const s = document.createElement("script"); s.textContent = "window.broken = 1";' +
        ' document.body.append(s); s.remove(); setTimeout(() => done(window.broken === undefined), 50); })';
      expect(faults).toEqual([]);
      expect(await page.evaluate(forbidden)).toBe(true);
    }, 60000);
  });
});

/**
 * The ES5 scripts in real browsers, served under a strict policy: by script tag, in strict mode, and in a worker of the
 * browser. With `MOTESCALE_ALL_ENGINES=1`, in Chromium and in Firefox where they are installed.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import puppeteer, { type Browser } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import pkg from '../../package.json' with { type: 'json' };
import { scripts } from './scripts.ts';

const browsers = [
  ['chrome', '/usr/bin/chromium'],
  ['firefox', '/usr/bin/firefox-esr'],
] as const;

const policy = "default-src 'none'; script-src 'self'; worker-src 'self'";

/** What the script leaves where it ran: its version, a code, what an error says, and the globals it made. */
const tell = `
var told = { version: motescale.version };
told.code = motescale.classify(motescale.iso4406, motescale.cumulativeCounts({ 4: 1890, 6: 402, 14: 33 })).text;
try { motescale.cumulativeCounts({ 4: -1 }); } catch (error) { told.error = error.code; }
told.made = Object.keys(self).filter(function (name) { return before.indexOf(name) < 0; });
`;
const before = 'var before, told; before = Object.keys(self);';
const inPage = 'document.title = JSON.stringify(told);';

/** The page of docs/scripts.md: its HTML, and its script with what it worked out told. */
function pageOfGuide(file: string): string {
  const guide = readFileSync('docs/scripts.md', 'utf8');
  const block = (kind: string) => new RegExp(`\`\`\`${kind}\\n([\\s\\S]*?)\`\`\``).exec(guide)?.[1] ?? '';
  if (file !== 'lock.js') return block('html');
  const told = block('js').replace(/^(motescale\.classify\(.*\)\.text);/m, 'document.title = $1;');
  return `${told}document.title = JSON.stringify({ code: document.title });`;
}

/** The files of a page: the way a script is loaded is the page's name. */
function fileOf(url: string): string | null {
  const [, way = '', file = ''] = /^\/(\w+)\/([\w.]+)$/.exec(url) ?? [];
  const script = existsSync(`dist/scripts/${file}`) ? readFileSync(`dist/scripts/${file}`, 'utf8') : '';
  const tags = (...sources: string[]) =>
    `<!doctype html>${sources.map((src) => `<script src="${src}"></script>`).join('')}`;
  const pages: Record<string, string> = {
    tag: tags('/own/before.js', `/script/${file}`, '/own/tell.js'),
    strict: tags('/own/before.js', `/joined/${file}`),
    worker: tags(`/start/${file}`),
    script,
    guide: script || pageOfGuide(file),
    joined: `'use strict';\n${script}\n${tell}\n${inPage}`,
    start: `new Worker('/work/${file}').onmessage = function (told) { document.title = told.data; };`,
    work: `${before}\nimportScripts('/script/${file}');\n${tell}\npostMessage(JSON.stringify(told));`,
  };
  const own: Record<string, string> = { 'before.js': before, 'tell.js': `${tell}\n${inPage}` };
  return (way === 'own' ? own[file] : pages[way]) ?? null;
}

describe.each(browsers)('in %s', (browserName, executablePath) => {
  const wanted = process.env.MOTESCALE_ALL_ENGINES === '1' && existsSync(executablePath);

  describe.skipIf(!wanted)('the scripts', () => {
    let server: Server;
    let browser: Browser;

    beforeAll(async () => {
      server = createServer(({ url = '' }, answer) => {
        const text = fileOf(url);
        const page = /^\/(tag|strict|worker)\/|html$/.test(url);
        answer.statusCode = text === null ? 404 : 200;
        answer.setHeader('content-security-policy', policy);
        answer.setHeader('content-type', page ? 'text/html; charset=utf-8' : 'text/javascript').end(text ?? '');
      });
      await new Promise<void>((listening) => {
        server.listen(0, '127.0.0.1', listening);
      });
      browser = await puppeteer.launch({ browser: browserName, executablePath, args: ['--no-sandbox'] });
    }, 120000);

    afterAll(async () => {
      await browser?.close();
      server?.close();
    });

    test('the page of docs/scripts.md', async () => {
      const page = await browser.newPage();
      await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/guide/index.html`);
      await page.waitForFunction('document.title !== ""', { timeout: 30000 });
      expect(await page.title()).toBe('{"code":"18/16/13"}');
      await page.close();
    }, 60000);

    const ways = scripts.flatMap((file) => ['tag', 'strict', 'worker'].map((way) => [file, way] as const));

    test.each(ways)(
      '%s, %s',
      async (file, way) => {
        const page = await browser.newPage();
        const faults: string[] = [];
        page.on('pageerror', (error) => faults.push(String(error)));
        await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/${way}/${file}`);
        await page.waitForFunction('document.title !== ""', { timeout: 30000 }).catch(() => expect(faults).toEqual([]));
        expect(JSON.parse(await page.title())).toEqual({
          ...{ version: pkg.version, code: '18/16/12', error: 'negative', made: ['motescale'] },
        });
        await page.close();
      },
      60000,
    );
  });
});

/**
 * Charts in a page of a real browser: under a policy that forbids making code of text they are the pictures that they
 * are without it. With `MOTESCALE_ALL_ENGINES=1`, where there is Chromium.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { build } from 'esbuild';
import puppeteer, { type Browser } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { codeUncertainty, iso4406 } from '../../src/codes/index.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import { germanTexts } from '../../src/german/index.ts';
import { cleanUpChart, countBuckets, probabilityChart, sizeChart, trendChart } from '../../src/report/index.ts';
import { sampleReadings } from '../reference/report/sampleReadings.ts';

const chromium = '/usr/bin/chromium';
const wanted = process.env.MOTESCALE_ALL_ENGINES === '1' && existsSync(chromium);

const readings = sampleReadings();
const raw = cumulativeCounts({ 4: 12500, 6: 2120, 14: 19, 21: 0 }, { volumeMl: 10 });
const tank = {
  ...{ litres: 600, litresPerMin: 40, beta: [20, 75, 1000] },
  counts: cumulativeCounts({ 4: 42000, 6: 9400, 14: 690 }),
};
const events = [{ time: (readings[20] as { time: number }).time, text: 'pump started' }];
const charts = {
  trend: trendChart(readings, { target: '18/16/13', alarm: '20/18/15', events }),
  'trend on a phone, in German': trendChart(readings, { target: '18/16/13', width: 320, texts: germanTexts }),
  buckets: trendChart(countBuckets(readings, { widthMs: 86400000, holdMs: 7200000 })),
  codes: trendChart(readings.map(({ time, codes = {} }) => ({ time, codes }))),
  nothing: trendChart([]),
  size: sizeChart(raw, { target: '18/16/13', errors: {} }),
  'clean-up': cleanUpChart(tank, { minutes: 300, target: '16/14/11' }),
  probability: probabilityChart(codeUncertainty(iso4406, raw)),
};

/** What the page itself runs: each chart drawn, with code made of text or by the interpreter. */
const script = `
import { parse, View } from 'vega';
import { expressionInterpreter } from 'vega-interpreter';
import { compile } from 'vega-lite';
const charts = ${JSON.stringify(charts)};
const strict = location.pathname === '/strict';
let forbidden = false;
try { new Function('return 1')(); } catch { forbidden = true; }
const pictures = {};
for (const [name, chart] of Object.entries(charts)) {
  const { spec } = compile(chart);
  const view = strict
    ? new View(parse(spec, {}, { ast: true }), { renderer: 'none', expr: expressionInterpreter })
    : new View(parse(spec), { renderer: 'none' });
  pictures[name] = await view.toSVG();
}
document.body.textContent = JSON.stringify({ forbidden, pictures });
`;

/** The blocks of docs/charts.md, each with a chart before it, and what it has drawn told after it. */
const blocks = [...readFileSync('docs/charts.md', 'utf8').matchAll(/```js\n([\s\S]*?)```/g)].map(([, block = '']) => {
  const imports = block.includes('import ')
    ? ''
    : "import { compile } from 'vega-lite'; import { parse, View } from 'vega';";
  const told = block.includes('svg =') ? 'svg' : "document.querySelector('#chart').innerHTML";
  const wait = 'await new Promise((drawn) => setTimeout(drawn, 500));';
  return `${imports}const chart = ${JSON.stringify(charts.size)};\n${block}\n${wait}\ndocument.title = ${told};`;
});

async function bundled(contents: string): Promise<string> {
  const options = { bundle: true, write: false, format: 'esm', platform: 'browser', logLevel: 'error' } as const;
  const { outputFiles } = await build({ stdin: { contents, resolveDir: import.meta.dirname }, ...options });
  return outputFiles[0]?.text ?? '';
}

interface Shown {
  readonly forbidden: boolean;
  readonly pictures: Readonly<Record<string, string>>;
}

describe.skipIf(!wanted)('in Chromium', () => {
  let server: Server;
  let browser: Browser;
  let open: Shown;
  let strict: Shown;

  beforeAll(async () => {
    const code = await bundled(script);
    const written = await Promise.all(blocks.map(bundled));
    server = createServer(({ url }, answer) => {
      const block = /^\/(\d)(\.js)?$/.exec(url ?? '');
      if (url === '/page.js' || block?.[2])
        return answer.setHeader('content-type', 'text/javascript').end(block ? written[Number(block[1])] : code);
      if (url === '/strict' || url === '/1')
        answer.setHeader('content-security-policy', "default-src 'none'; script-src 'self'");
      answer.setHeader('content-type', 'text/html; charset=utf-8');
      const source = block ? `/${block[1]}.js` : '/page.js';
      return answer.end(`<!doctype html><body><div id="chart"></div><script type="module" src="${source}"></script>`);
    });
    await new Promise<void>((listening) => {
      server.listen(0, '127.0.0.1', listening);
    });
    browser = await puppeteer.launch({ executablePath: chromium, args: ['--no-sandbox'] });
    open = await shown('/open');
    strict = await shown('/strict');
  }, 120000);

  afterAll(async () => {
    await browser?.close();
    server?.close();
  });

  async function shown(path: string): Promise<Shown> {
    const page = await browser.newPage();
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}${path}`);
    await page.waitForFunction('document.body.textContent.startsWith("{")', { timeout: 60000 });
    return JSON.parse((await page.evaluate('document.body.textContent')) as string);
  }

  test.each([...blocks.keys()])(
    'block %i of docs/charts.md draws',
    async (number) => {
      const page = await browser.newPage();
      await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/${number}`);
      await page.waitForFunction('document.title !== ""', { timeout: 60000 });
      expect(await page.title()).toMatch(/<svg[\s\S]*18\/16\/13/);
      await page.close();
    },
    120000,
  );

  test('the policy holds in the one page and not in the other', () => {
    expect([open.forbidden, strict.forbidden]).toEqual([false, true]);
  });

  test.each(Object.keys(charts))('%s', (name) => {
    expect(open.pictures[name]).toMatch(/^<svg/);
    expect(strict.pictures[name]).toBe(open.pictures[name]);
  });
});

/** The sheet of the examples prints on one page of A4. With `MOTESCALE_ALL_ENGINES=1`, where there is Chromium. */
import { existsSync } from 'node:fs';
import puppeteer from 'puppeteer-core';
import { expect, test } from 'vitest';

const chromium = '/usr/bin/chromium';
const wanted = process.env.MOTESCALE_ALL_ENGINES === '1' && existsSync(chromium);

test.skipIf(!wanted)(
  'one page',
  async () => {
    const file = '../../docs/examples/sheet.mjs';
    const { sheetPage } = (await import(file)) as { sheetPage: () => Promise<string> };
    const browser = await puppeteer.launch({ executablePath: chromium, args: ['--no-sandbox'] });
    try {
      const page = await browser.newPage();
      const pages = async (html: string) => {
        await page.setContent(html);
        const pdf = Buffer.from(await page.pdf({ preferCSSPageSize: true })).toString('latin1');
        return pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length;
      };
      expect(await pages(await sheetPage())).toBe(1);
      expect(await pages(`${await sheetPage()}<p style="margin-top: 200mm">more`)).toBe(2);
    } finally {
      await browser.close();
    }
  },
  120000,
);

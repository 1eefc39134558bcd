// The sheet of one sample as a page that prints on one A4: `node docs/examples/sheet.mjs` writes
// docs/examples/out/sheet.html.
import { mkdirSync, writeFileSync } from 'node:fs';
import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cumulativeCounts, iso4406, nas1638, sampleSheet, sheetText, sizeChart } from 'motescale';
import * as vega from 'vega';
import { compile } from 'vega-lite';

/** The page, as text. */
export async function sheetPage() {
  const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330, 21: 41 }, { volumeMl: 10 });
  const target = '18/16/13';
  const title = 'Lower gate, return line';
  const sheet = sampleSheet(counts, { title, time: Date.UTC(2026, 10, 25, 8), tables: [iso4406, nas1638], target });
  const { spec } = compile(sizeChart(counts, { title: 'Size distribution', target, errors: {}, width: 420 }));
  const picture = await new vega.View(vega.parse(spec), { renderer: 'none' }).toSVG(0.65);
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>${title}</title>
<style>
  @page { size: A4; margin: 12mm }
  body { margin: 1rem auto; max-width: 72ch; font: 13px/1.2 monospace }
  pre { margin: 0; font: inherit; white-space: pre-wrap }
  figure { margin: 1em 0 0; break-inside: avoid }
  @media print { body { margin: 0; font-size: 10px } }
</style>
<pre>${escaped(sheetText(sheet))}</pre>
<figure>${picture}</figure>
</html>
`;
}

function escaped(text) {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
}

if (process.argv[1]?.endsWith('sheet.mjs')) {
  const folder = new URL('out/', import.meta.url);
  mkdirSync(folder, { recursive: true });
  writeFileSync(new URL('sheet.html', folder), await sheetPage());
  console.log(relative(process.cwd(), fileURLToPath(new URL('sheet.html', folder))));
}

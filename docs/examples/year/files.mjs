// What is left at the end: the days of each unit as CSV, and three charts as SVG.
import { mkdirSync, writeFileSync } from 'node:fs';
import { bucketQuantile, cleanUpChart, reportRows, sizeChart, toCsv, trendChart } from 'motescale';
import * as vega from 'vega';
import { compile } from 'vega-lite';
import { chartDays, chartFigures, reportDays } from './days.mjs';

/** Writes the files into a folder and returns their names. */
export async function writeFiles(folder, watched, dirty, plan) {
  mkdirSync(folder, { recursive: true });
  const names = [];
  const write = (name, text) => {
    writeFileSync(new URL(name, folder), text);
    names.push(name);
  };
  for (const one of watched) write(`${fileName(one.unit.name)}-days.csv`, csvOf(one));
  for (const [name, spec] of Object.entries(charts(dirty, plan))) write(name, await svgOf(spec));
  return names;
}

function csvOf({ unit, days }) {
  const { header, rows } = reportRows(reportDays(days, unit.target));
  const used = days.filter(({ at4 }) => at4.mean !== null);
  const table = {
    header: [...header, '6 µm(c), 95 % of the time', 'readings', 'worst scale numbers', 'water saturation, %'],
    rows: rows.map((row, i) => {
      const { at4, at6, water } = used[i];
      return [
        ...row,
        Math.round(bucketQuantile(at6, 0.95)),
        at4.count,
        at4.worst.join(' '),
        Math.round(water.mean * 1000) / 10,
      ];
    }),
  };
  // for a spreadsheet: it shall know µ, and not take 12/10/7 for a day in December
  return toCsv(table, { byteOrderMark: true, guard: 'formulas and dates' });
}

function charts({ unit, days }, plan) {
  const { name, target, alarm } = unit;
  return {
    'trend.svg': trendChart(chartDays(days), {
      title: `${name}, day by day`,
      target,
      alarm,
      figures: chartFigures(days),
    }),
    'sizes.svg': sizeChart(plan.tank.counts, { title: `${name} after the collapse of the filter`, target }),
    'clean-up.svg': cleanUpChart(plan.tank, {
      title: `${name} with a filter cart`,
      target,
      minutes: 240,
      measured: plan.measured,
    }),
  };
}

/** A copy is compiled, since the renderer marks the data it is given. */
function svgOf(spec) {
  const { spec: compiled } = compile(JSON.parse(JSON.stringify(spec)));
  return new vega.View(vega.parse(compiled), { renderer: 'none' }).toSVG();
}

function fileName(name) {
  return name.toLowerCase().replaceAll(' ', '-');
}

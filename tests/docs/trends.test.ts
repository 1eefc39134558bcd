/** The picture of docs/trends.md, made from its data. `npm test -- -u` writes it anew. */
import { expect, test } from 'vitest';
import days from '../../docs/examples/gate-days.json' with { type: 'json' };
import { studentLimit } from '../../src/numeric/student.ts';
import { riskWithEnd } from '../../src/trend/crossing.ts';
import { robustLine } from '../../src/trend/dependence/robustLine.ts';
import { forecastCrossing } from '../../src/trend/forecastCrossing.ts';
import { countPairs } from '../../src/trend/kendall.ts';
import { orderPoints } from '../../src/trend/trendPoints.ts';

test('docs/examples/forecast-fan.svg: the days, the line, the fan and the level', async () => {
  const values = days.wearing;
  const times = values.map((_value, day) => day);
  const level = 17;
  const [lastDay, low, high] = [350, 15, 18.6];
  const x = (day: number) => (40 + (day / lastDay) * 580).toFixed(1);
  const y = (value: number) => (270 - ((value - low) / (high - low)) * 250).toFixed(1);
  const at = (day: number, value: number) => `${x(day)},${y(value)}`;
  const main = forecastCrossing(times, values, { level });
  const line = (day: number) => main.now + main.slope * (day - 89);
  // the fan: the line with the limits that the crossing was read from
  const points = orderPoints(times, values);
  const robust = robustLine(points, countPairs(points, 0), 0);
  const reach = studentLimit(riskWithEnd(0.05, main.effectiveN as number), robust.freedom);
  const half = (day: number) => {
    const from = day - robust.layout.mean;
    return reach * Math.sqrt(robust.centreVariance + from * from * robust.slopeVariance);
  };
  const ahead = Array.from({ length: 88 }, (_x, i) => 89 + 3 * i);
  const edge = (day: number, side: 1 | -1) => at(day, Math.min(high, line(day) + side * half(day)));
  const fan = [...ahead.map((day) => edge(day, 1)), ...ahead.reverse().map((day) => edge(day, -1))].join(' ');
  // the lower edge meets the level where the forecast says that it will have been crossed
  const latest = main.latest as number;
  expect(line(latest) - half(latest)).toBeCloseTo(level, 6);
  const dots = values.map((value, day) => `<circle cx="${x(day)}" cy="${y(value)}" r="2"/>`).join('');
  const mark = (day: number, name: string, anchor: 'start' | 'middle' | 'end') =>
    `<line x1="${x(day)}" y1="${y(low)}" x2="${x(day)}" y2="${y(level)}" stroke="#555" stroke-dasharray="3 3"/>` +
    `<text x="${x(day)}" y="288" text-anchor="${anchor}">${name} ${Math.round(day)}</text>`;
  const svg = [
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 640 300" font-family="sans-serif" font-size="12" role="img">',
    '<title>Forecast of a lock gate: days, line, fan of 95 % limits, level 17</title>',
    '<rect width="640" height="300" fill="white"/>',
    `<polygon points="${fan}" fill="#cfe0f3"/>`,
    `<line x1="${x(0)}" y1="${y(level)}" x2="${x(lastDay)}" y2="${y(level)}" stroke="#b00020"/>`,
    `<text x="${x(2)}" y="${Number(y(level)) - 5}" fill="#b00020">level ${level}</text>`,
    `<g fill="#1f4e79">${dots}</g>`,
    `<polyline points="${at(0, line(0))} ${at(lastDay, Math.min(high, line(lastDay)))}" stroke="#1f4e79" fill="none"/>`,
    mark(main.earliest as number, 'from day', 'end'),
    mark(main.time as number, 'line: day', 'start'),
    mark(main.latest as number, 'to day', 'middle'),
    '</svg>',
  ].join('\n');
  await expect(`${svg}\n`).toMatchFileSnapshot('../../docs/examples/forecast-fan.svg');
});

/** The picture of docs/trends.md, made from its data. `npm test -- -u` writes it anew. */
import { expect, test } from 'vitest';
import days from '../../docs/examples/gate-days.json' with { type: 'json' };
import { studentLimit } from '../../src/numeric/student.ts';
import { riskBesideLongest } from '../../src/trend/crossing.ts';
import { type RobustLine, robustLine, withLongestMemory } from '../../src/trend/dependence/robustLine.ts';
import { forecastCrossing } from '../../src/trend/forecastCrossing.ts';
import { countPairs } from '../../src/trend/kendall.ts';
import { senSlopeOf } from '../../src/trend/senSlope.ts';
import { orderPoints } from '../../src/trend/trendPoints.ts';

test('docs/examples/forecast-fan.svg: the days, the line, the fan and the level', async () => {
  const values = days.wearing;
  const times = values.map((_value, day) => day);
  const level = 17;
  const [lastDay, low, high] = [400, 15, 19];
  const x = (day: number) => (40 + (day / lastDay) * 580).toFixed(1);
  const y = (value: number) => (270 - ((value - low) / (high - low)) * 250).toFixed(1);
  const at = (day: number, value: number) => `${x(day)},${y(value)}`;
  const main = forecastCrossing(times, values, { level });
  const line = (day: number) => main.now + main.slope * (day - 89);
  // the fan: the line with the limits that the crossing was read from
  const points = orderPoints(times, values);
  const robust = robustLine(points, senSlopeOf(points, countPairs(points, 0)), 0);
  const longest = withLongestMemory(robust);
  const limit = (risk: number) => studentLimit(risk, robust.freedom);
  const reach = (day: number, by: RobustLine, risk: number) =>
    limit(risk) * Math.sqrt(by.centreVariance + (day - by.layout.mean) * (day - by.layout.mean) * by.slopeVariance);
  const wideRisk = riskBesideLongest(0.05, longest.dependence?.room as number);
  const half = (day: number) => Math.max(reach(day, robust, 0.05), reach(day, longest, wideRisk));
  const ahead = Array.from({ length: 104 }, (_x, i) => 89 + 3 * i);
  const edge = (day: number, side: 1 | -1) => at(day, line(day) + side * half(day));
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
    `<clipPath id="frame"><rect x="${x(0)}" y="${y(high)}" width="580" height="250"/></clipPath>`,
    `<polygon points="${fan}" fill="#cfe0f3" clip-path="url(#frame)"/>`,
    `<line x1="${x(0)}" y1="${y(level)}" x2="${x(lastDay)}" y2="${y(level)}" stroke="#b00020"/>`,
    `<text x="${x(2)}" y="${Number(y(level)) - 5}" fill="#b00020">level ${level}</text>`,
    `<g fill="#1f4e79">${dots}</g>`,
    `<polyline points="${at(0, line(0))} ${at(lastDay, line(lastDay))}" stroke="#1f4e79" fill="none" ` +
      'clip-path="url(#frame)"/>',
    ...[15, 16, 17, 18, 19].map(
      (value) => `<text x="30" y="${Number(y(value)) + 4}" text-anchor="end">${value}</text>`,
    ),
    mark(main.earliest as number, 'from day', 'end'),
    mark(main.time as number, 'line: day', 'start'),
    mark(main.latest as number, 'to day', 'middle'),
    '</svg>',
  ].join('\n');
  await expect(`${svg}\n`).toMatchFileSnapshot('../../docs/examples/forecast-fan.svg');
});

/** The walk through codes/. */
import type { ClassTable } from '../../../src/codes/index.ts';
import type { Sizing } from '../../../src/counts/index.ts';
import { type Next, numbersFrom, spoil } from '../inputs.ts';
import type { Library } from '../recorder.ts';
import { countsBySize } from './counts.ts';

/** One more and one less than this, times a number, is the next double or the one after: enough to fall off a limit. */
const smallest = 1 / 67108864 / 67108864;

const ownTable = {
  id: 'gateOil',
  title: 'Lock gate oil',
  counting: 'cumulative',
  perVolumeMl: 1,
  columns: [
    { label: '6', from: { iso11171: 6 } },
    { label: '14', from: { iso11171: 14 } },
  ],
  classes: ['run', 'filter'],
  limits: [
    [640, 80],
    [2500, 320],
  ],
} as const;

const texts = [
  ['18/16/13', '22/18/-', '-/14/11', '*/18/>=7', '>28/28/0', ' 5 / 4 / 3 ', '14/12/≥7', '18/16', '18/13'],
  ['6B-F', '7B/6C/5D', '000a', '>12F', '6', '6B/7B', '12A/11B/10C/9D/8E/7F', '5C-B'],
  ['00', '0', '6', '12', '>12', '17', '13', '100', '>1000', 'run', 'level 5'],
  ['', '/', '//', '18//13', '-/-/-', '18/16/29', '>=>28/1/1', '1e1/1/1', 'é/ß/µ', '6-', '6B-', '99999999999'],
];

export function walk(motescale: Library): void {
  const next = numbersFrom(28);
  const own = motescale.classTable(ownTable);
  const tables: ClassTable[] = [
    motescale.iso4406,
    motescale.iso4406Microscope,
    motescale.as4059Differential,
    motescale.as4059Cumulative,
    motescale.nas1638,
    motescale.gost17216,
    motescale.sae749d,
    motescale.navair,
    motescale.cc1246,
    own,
  ];
  for (const table of tables) {
    walkTexts(motescale, table);
    walkClasses(motescale, table);
    walkIntervals(motescale, table, next);
    for (let i = 0; i < 16; i += 1) walkSample(motescale, table, tables[(i + 1) % tables.length] as ClassTable, next);
  }
  walkScale(motescale, next);
  walkOddInputs(motescale);
}

function walkTexts(motescale: Library, table: ClassTable): void {
  for (const list of texts) {
    for (const text of list) {
      const code = motescale.parseCode(table, text);
      if (code === undefined) continue;
      motescale.formatCode(table, code);
      motescale.limitsOf(table, code);
      motescale.meets(table, table.classes[1] as string, code);
    }
  }
}

function walkClasses(motescale: Library, table: ClassTable): void {
  for (const name of table.classes) {
    motescale.guaranteeingCode(table, name);
    motescale.limitsOf(table, name, 'microscope');
  }
}

/** Of few particles only: the exact limits of many take the small engines seconds. */
function walkIntervals(motescale: Library, table: ClassTable, next: Next): void {
  for (let i = 0; i < 4; i += 1) {
    const at: Record<number, number> = {};
    let counted = 90;
    for (const size of sizesOf(table, 'iso11171')) {
      counted = next(counted + 1);
      at[size] = counted;
    }
    motescale.codeInterval(table, motescale.cumulativeCounts(at, { volumeMl: (1 + next(40)) / 4 }), {
      confidence: 0.9,
    });
  }
}

function sizesOf(table: ClassTable, sizing: Sizing): number[] {
  const sizes: number[] = [];
  for (const column of table.columns) {
    const size = column.from[sizing];
    if (size !== undefined) sizes.push(size);
  }
  return sizes.length === 0 ? [6, 14] : sizes;
}

function walkSample(motescale: Library, table: ClassTable, other: ClassTable, next: Next): void {
  const sizing: Sizing = next(3) === 0 ? 'microscope' : 'iso11171';
  const sizes = sizesOf(table, sizing);
  const counts = motescale.cumulativeCounts(countsBySize(sizes, next, 32), { sizing });
  const raw = motescale.cumulativeCounts(countsBySize(sizes, next, 1), { sizing, volumeMl: 10, dilution: 1 + next(3) });
  for (const sample of [counts, raw]) {
    const found = motescale.classify(table, sample);
    if (found === undefined) continue;
    motescale.formatCode(table, found);
    motescale.meets(table, found.text, sample);
    motescale.meets(table, table.classes[next(table.classes.length)] as string, found);
  }
  motescale.possibleClasses(other, counts);
  motescale.likelyClasses(other, counts);
  const bands = motescale.limitsOf(table, table.classes[next(table.classes.length)] as string);
  if (bands === undefined) return;
  motescale.possibleClasses(other, bands);
  motescale.likelyClasses(other, bands);
}

function walkScale(motescale: Library, next: Next): void {
  const column: number[] = [0];
  for (const row of motescale.iso4406.limits) {
    const limit = row[0] as number;
    column.push(limit, limit * (1 - smallest), limit * (1 + smallest), (limit * (64 + next(64))) / 64);
  }
  for (const perMl of column) {
    motescale.scaleNumber(perMl);
    motescale.continuousScaleNumber(perMl);
    motescale.cc1246Level(perMl, 1 + next(100));
    motescale.cc1246Count(1 + next(1000), 1 + next(100) / 4);
  }
  if (typeof Float64Array !== 'undefined') {
    motescale.scaleNumbers(new Float64Array(column));
    motescale.scaleNumbers(new Float64Array([1, 0 / 0]));
    const part = (share: number) => new Float64Array(column.map((perMl, i) => (i % 40 === 7 ? 0 / 0 : perMl * share)));
    motescale.classifyColumns(motescale.nas1638, { 6: part(1), 14: part(0.1), 21: part(0.01) });
    motescale.classifyColumns(motescale.iso4406, { 4: part(1), 14: part(0.1) }, { columns: ['4', '14'] });
    motescale.csvColumns({
      header: ['a', '4'],
      rows: [
        ['x', 1.5],
        ['y', null],
      ],
    });
    spoil(motescale.csvColumns, [{ header: ['a'], rows: [[1]] }]);
    spoil(motescale.classifyColumns, [
      motescale.iso4406,
      { 4: new Float64Array([1]) },
      { sizing: 'iso11171', columns: ['4'] },
    ]);
  }
}

function walkOddInputs(motescale: Library): void {
  const { iso4406 } = motescale;
  const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [7, 3, 0], counted: [14, 6, 0], volumeMl: 2 };
  const code = { table: 'iso4406', parts: [{ column: '4', class: '18' }], text: '18/16/13' };
  spoil(motescale.classTable, [ownTable]);
  spoil(motescale.classify, [iso4406, counts, { columns: ['4'] }]);
  motescale.findCodes('ISO 4406: 18/16/13, then 17\u201316 and 19\uff0f17\uff0f14');
  motescale.findCodes('12/10 or 22/18/13', [iso4406]);
  spoil(motescale.findCodes, ['ISO 4406: 18/16/13']);
  spoil(motescale.parseCode, [iso4406, '18/16/13']);
  spoil(motescale.formatCode, [iso4406, code]);
  spoil(motescale.limitsOf, [iso4406, '18/16/13', 'iso11171']);
  spoil(motescale.meets, [iso4406, '18/16/13', counts]);
  spoil(motescale.codeInterval, [counts, { confidence: 0.9, table: iso4406 }]);
  spoil(motescale.possibleClasses, [counts, iso4406]);
  spoil(motescale.likelyClasses, [counts, iso4406]);
  spoil(motescale.guaranteeingCode, [motescale.nas1638, '6']);
  spoil(motescale.scaleNumber, [160]);
  spoil(motescale.continuousScaleNumber, [160]);
  spoil(motescale.cc1246Count, [100, 5]);
  spoil(motescale.cc1246Level, [265, 15]);
}

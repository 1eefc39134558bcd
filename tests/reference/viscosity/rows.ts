/** Printed values of viscosity: lines, indices, scales, grades. */
import { fahrenheitToCelsius } from '../../../src/units.ts';
import {
  agmaGradeLimits,
  convertViscosity,
  isoGradeLimits,
  pressureViscosityFactor,
  referenceViscosities,
  saeJ300Table,
  saeJ306Table2005,
  saeJ306Table2019,
  type ViscosityScale,
  viscosityAt,
  viscosityIndex,
  viscosityLine,
} from '../../../src/viscosity/index.ts';
import { type Row, rowsOf, type Value } from '../ledger.ts';
import d341 from './d341.json' with { type: 'json' };
import d2161 from './d2161.json' with { type: 'json' };
import d2270 from './d2270.json' with { type: 'json' };
import efflux from './efflux.json' with { type: 'json' };
import coefficients from './efflux-coefficients.json' with { type: 'json' };
import grades from './grades.json' with { type: 'json' };

const at = (celsius: number, mm2PerS: number) => ({ celsius, mm2PerS });

function lines(): Row[] {
  const { short, full, teaching, coefficients, tellsFormsApart } = d341;
  const inShort = ({ f1, v1, f2, v2, f }: (typeof short.points)[number], form: 'short' | 'full') => {
    const points = [at(fahrenheitToCelsius(f1), v1), at(fahrenheitToCelsius(f2), v2)];
    return viscosityAt(viscosityLine(points, { form }), fahrenheitToCelsius(f));
  };
  const { kelvinOffset, c1, v1, c2, v2, ...line } = coefficients;
  const shift = kelvinOffset - 273.15;
  const [example] = short.points as [(typeof short.points)[0]];
  return [
    ...rowsOf(
      short,
      short.points.map((point) => ({
        id: `${point.f} °F, ${point.v1}`,
        function: 'viscosityAt',
        inputs: point,
        expected: point.expected,
        tolerance: point.tolerance,
        found: () => inShort(point, 'short'),
      })),
    ),
    ...[full, teaching].flatMap((table) =>
      rowsOf(
        table,
        table.points.map((point) => ({
          id: `${point.c} °C`,
          function: 'viscosityAt',
          inputs: point,
          expected: point.expected,
          tolerance: point.tolerance,
          found: () => viscosityAt(viscosityLine([at(point.c1, point.v1), at(point.c2, point.v2)]), point.c),
        })),
      ),
    ),
    ...rowsOf(
      coefficients,
      (['a', 'b'] as const).map((name) => ({
        id: name,
        function: 'viscosityLine',
        inputs: { c1, v1, c2, v2 },
        expected: line[name],
        tolerance: line.tolerance,
        found: () => viscosityLine([at(c1 + shift, v1), at(c2 + shift, v2)])[name],
      })),
    ),
    ...rowsOf(
      tellsFormsApart,
      (['short', 'full'] as const).map((form) => ({
        id: form,
        function: 'viscosityAt',
        inputs: { ...example, form },
        expected: tellsFormsApart[form],
        tolerance: tellsFormsApart.tolerance,
        found: () => inShort(example, form),
      })),
    ),
  ];
}

function references(at100: number, l: number, h: number, tolerance: number): Value[] {
  const row = { function: 'referenceViscosities', inputs: { at100 }, tolerance };
  return [
    { ...row, id: `L at ${at100}`, expected: l, found: () => referenceViscosities(at100).l },
    { ...row, id: `H at ${at100}`, expected: h, found: () => referenceViscosities(at100).h },
  ];
}

interface IndexPoint {
  readonly at40: number;
  readonly at100: number;
  readonly index: number;
  readonly tolerance: number;
  readonly reported: number;
}

function indexOf({ tolerance, index, reported, ...oil }: IndexPoint): Value[] {
  const given = { at40: oil.at40, at100: oil.at100 };
  const row = { function: 'viscosityIndex', inputs: given };
  const id = `of ${oil.at40} and ${oil.at100}`;
  return [
    { ...row, id: `index ${id}`, expected: index, tolerance, found: () => viscosityIndex(given).index },
    { ...row, id: `reported ${id}`, expected: reported, tolerance: 0, found: () => viscosityIndex(given).reported },
  ];
}

function indices(): Row[] {
  const { table, equations, examples, computed } = d2270;
  return [
    ...rowsOf(
      table,
      (table.rows as [number, number, number][]).flatMap(([at100, l, h]) => references(at100, l, h, 0)),
    ),
    ...rowsOf(
      equations,
      equations.points.flatMap(({ at100, l, h }) => references(at100, l, h, 5e-10)),
    ),
    ...rowsOf(
      examples,
      examples.points.flatMap((point) => [
        ...references(point.at100, point.l, point.h, 5e-10),
        ...indexOf(point),
        {
          id: `procedure of ${point.at40} and ${point.at100}`,
          function: 'viscosityIndex',
          inputs: { at40: point.at40, at100: point.at100 },
          expected: point.procedure,
          tolerance: 0,
          found: () => viscosityIndex({ at40: point.at40, at100: point.at100 }).procedure,
        },
      ]),
    ),
    ...rowsOf(computed, computed.points.flatMap(indexOf)),
  ];
}

/** A viscosity converted, with what it must give. */
function converted(
  [value, from, to, fahrenheit]: [number, string, string, number?],
  expected: number,
  tolerance: number,
): Value {
  const celsius = fahrenheit === undefined ? undefined : fahrenheitToCelsius(fahrenheit);
  return {
    id: `${value} ${from} in ${to}${fahrenheit === undefined ? '' : ` at ${fahrenheit} °F`}`,
    function: 'convertViscosity',
    inputs: { value, from, to, fahrenheit },
    expected,
    tolerance,
    found: () =>
      convertViscosity(value, from as ViscosityScale, to as ViscosityScale, celsius === undefined ? {} : { celsius }),
  };
}

function scales(): Row[] {
  const { api, ends, factor, handbook } = d2161;
  return [
    ...[api, ends].flatMap((table) =>
      rowsOf(
        table,
        table.points.map((p) => converted([p.mm2PerS, 'mm2/s', p.scale, p.fahrenheit], p.seconds, p.tolerance)),
      ),
    ),
    ...rowsOf(
      factor,
      factor.points.map(({ fahrenheit, factor: times, tolerance }) =>
        converted([1e5, 'mm2/s', 'SUS', fahrenheit], times * 1e5, tolerance * 1e5),
      ),
    ),
    ...rowsOf(
      handbook,
      handbook.points.map(({ mm2PerS, seconds }) =>
        converted(
          [mm2PerS, 'mm2/s', 'SUS'],
          seconds,
          Math.max(handbook.relativeTolerance * seconds, handbook.tolerance),
        ),
      ),
    ),
    ...efflux.handbook.flatMap(({ scale, relativeTolerance, points, ...cited }) =>
      rowsOf(
        cited,
        points.map(({ reading, mm2PerS }) =>
          converted([reading, scale, 'mm2/s', 100], mm2PerS, relativeTolerance * mm2PerS),
        ),
      ),
    ),
    ...rowsOf(
      efflux.formulas,
      efflux.formulas.points.map(({ scale, reading, mm2PerS, tolerance }) =>
        converted([reading, scale, 'mm2/s', 100], mm2PerS, tolerance),
      ),
    ),
  ];
}

/** The printed coefficients of a formula, found again from what the scale gives at two readings. */
function coefficientsOf(): Row[] {
  const { cups, isoCups, redwood, worked } = coefficients;
  const [t1, t2] = [60, 90];
  const of = (scale: string, reading: number) => convertViscosity(reading, scale as ViscosityScale, 'mm2/s');
  const cup = (scale: string) => {
    const k = (of(scale, t2) - of(scale, t1)) / (t2 - t1);
    return { k, c: t1 - of(scale, t1) / k };
  };
  const viscometer = (scale: string) => {
    const a = (of(scale, t2) * t2 - of(scale, t1) * t1) / (t2 * t2 - t1 * t1);
    return { a, b: t1 * (a * t1 - of(scale, t1)) };
  };
  const valuesOf = (scale: string, printed: readonly number[], find: (scale: string) => object) =>
    Object.keys(find(scale)).map((name, i) => {
      const found = () => (find(scale) as Record<string, number>)[name];
      return { id: name, function: 'convertViscosity', inputs: { scale, name }, expected: printed[i] as number, found };
    });
  const table = (cited: typeof cups | typeof isoCups | typeof redwood, find: (scale: string) => object) =>
    rowsOf(
      cited,
      Object.entries(cited.rows).flatMap(([scale, printed]) =>
        valuesOf(scale, printed, find).map((one) => ({ ...one, id: `${scale}: ${one.id}`, tolerance: 1e-8 })),
      ),
    );
  return [
    ...table(cups, cup),
    ...table(isoCups, viscometer),
    ...table(redwood, viscometer),
    ...worked.flatMap(({ scale, reading, mm2PerS, tolerance, ...cited }) =>
      rowsOf(cited, [converted([reading, scale, 'mm2/s'], mm2PerS, tolerance)]),
    ),
  ];
}

/** Cells of a table of grades, without the blank ones. */
function cells(name: string, grade: string, printed: Readonly<Record<string, unknown>>, row: object): Value[] {
  return Object.entries(printed)
    .filter((cell): cell is [string, number] => typeof cell[1] === 'number')
    .map(([column, expected]) => ({
      id: `${grade} ${column}`,
      function: name,
      inputs: { grade },
      expected,
      tolerance: 0,
      found: () =>
        column.split('.').reduce<unknown>((at, key) => (at as Record<string, unknown>)?.[key], row) as number,
    }));
}

/** The cells of an edition of SAE J306: those that the edition of 2019 has too, or the others. */
function gearGrades(edition: '2005' | '2019', kept: 'same' | 'changed'): Row[] {
  const key = ({ id, expected }: Value) => `${id} ${expected}`;
  const of = (wanted: string) => {
    const { rows: printed, ...cited } = grades.j306.find((one) => one.edition === wanted) as (typeof grades.j306)[0];
    const table = wanted === '2019' ? saeJ306Table2019 : saeJ306Table2005;
    const values = printed.flatMap(([grade, least, below, coldest], i) =>
      cells('saeGearGradeLimits', `${grade}`, { least, below, coldest }, table[i] as object),
    );
    return { cited, values };
  };
  const later = of('2019').values.map(key);
  const { cited, values } = of(edition);
  return rowsOf(
    cited,
    values.filter((value) => later.includes(key(value)) === (kept === 'same')),
  );
}

function gradeTables(): Row[] {
  const { iso3448, agma9005, j300, barus } = grades;
  const isoOf: Readonly<Record<string, number>> = agma9005.isoOf;
  const byRule: readonly number[] = iso3448.byRule;
  const iso = (ruled: boolean) =>
    (iso3448.rows as [number, number, number, number][])
      .filter(([grade]) => byRule.includes(grade) === ruled)
      .flatMap(([grade, middle, least, most]) =>
        cells('isoGradeLimits', `VG ${grade}`, { middle, least, most }, isoGradeLimits(grade)),
      );
  const agma = (reprint: boolean) =>
    (agma9005.rows as [string, number, number, number][])
      .filter(([grade]) => (grade in isoOf && !byRule.includes(isoOf[grade] as number)) === reprint)
      .flatMap(([grade, , least, most]) => cells('agmaGradeLimits', grade, { least, most }, agmaGradeLimits(grade)));
  return [
    ...rowsOf(iso3448, iso(false)),
    // not in the reproductions read: by the rule of 10 % about the middle
    ...rowsOf({ ...iso3448, standing: 'computed' }, iso(true)),
    ...rowsOf(agma9005, agma(false)),
    // the numbers that have the limits of an ISO grade print those of ISO 3448
    ...rowsOf({ ...agma9005, standing: 'reprint' }, agma(true)),
    ...rowsOf(
      j300,
      j300.rows.flatMap(([grade, least, below, hthsLeast, cranking, crankingAt, pumping, pumpingAt], i) => {
        const printed = {
          least,
          below,
          hthsLeast,
          'crankingMost.mPaS': cranking,
          'crankingMost.celsius': crankingAt,
          'pumpingMost.mPaS': pumping,
          'pumpingMost.celsius': pumpingAt,
        };
        return cells('saeEngineGradeLimits', `${grade}, row ${i + 1}`, printed, saeJ300Table[i] as object);
      }),
    ),
    ...gearGrades('2019', 'same'),
    ...gearGrades('2005', 'changed'),
    // what the later edition left as it was counts once
    ...gearGrades('2005', 'same').map((row): Row => ({ ...row, standing: 'reprint' })),
    ...rowsOf(
      barus,
      barus.points.map(({ alphaPerPa, kPa, factor, tolerance }) => ({
        id: `${kPa} kPa`,
        function: 'pressureViscosityFactor',
        inputs: { alphaPerPa, kPa },
        expected: factor,
        tolerance,
        found: () => pressureViscosityFactor(kPa, alphaPerPa),
      })),
    ),
  ];
}

export const rows: readonly Row[] = [...lines(), ...indices(), ...scales(), ...coefficientsOf(), ...gradeTables()];

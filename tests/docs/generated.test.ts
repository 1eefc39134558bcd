/**
 * Pages and parts of pages that are made from the library's own data, so that they cannot drift. `npm test -- -u`
 * writes them anew.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import gate from '../../docs/examples/lower-gate.json' with { type: 'json' };
import * as codes from '../../src/codes/index.ts';
import { countAt, cumulativeCounts } from '../../src/counts/index.ts';
import * as exact from '../../src/exact/index.ts';
import * as motescale from '../../src/index.ts';
import { findingCodes, touchedBy } from '../../src/reading/findingKinds.ts';
import * as reading from '../../src/reading/index.ts';
import { countingConfidence } from '../../src/sampling/index.ts';
import * as schema from '../../src/schema/index.ts';
import { type Source, standings } from '../../src/source.ts';
import { filesBelow } from '../files.ts';
import { eventsOf, faults } from '../properties/monitor/comingAndGoing.ts';
import { delayRows, raiseRows, returnRows } from '../properties/monitor/fewByChance.ts';
import { harsherShapes, measure, measuredTables, shapes } from '../properties/population.ts';
import correspondence from '../reference/classes/correspondence.json' with { type: 'json' };
import table4 from '../reference/counts/iso16889-table4.json' with { type: 'json' };
import { full } from '../volume.ts';
import { membersTable } from './members.ts';
import { alarmSettingsTable, monitorSettingsTable } from './settings.ts';

/** Pages as their parts made so far leave them. */
const pages = new Map<string, string>();

/** Puts what is made between two marks of a page; the last test compares (or writes) the pages. */
function makePart(page: string, mark: string, made: string): void {
  const text = pages.get(page) ?? readFileSync(page, 'utf8');
  const whole = new RegExp(`(<!-- ${mark}: made by tests/docs -->\n)[\\s\\S]*?(<!-- /${mark} -->)`);
  expect(text, `${page} has no place for ${mark}`).toMatch(whole);
  pages.set(
    page,
    text.replace(whole, (_part, begin: string, end: string) => `${begin}\n${made}\n\n${end}`),
  );
}

function markdownTable(header: readonly string[], rows: readonly (readonly string[])[]): string {
  return [header, header.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');
}

/** A long text reads better in a list than in a cell, on a phone above all. */
function listItem(text: string): string {
  return `- ${text.replace(/(.{1,117})( |$)/g, '$1\n  ').trimEnd()}`;
}

test('docs/alarms.md: what an alarm may be told', () => {
  makePart('docs/alarms.md', 'settings', alarmSettingsTable());
});

describe('docs/monitor.md', () => {
  test('what a monitor may be told', () => {
    makePart('docs/monitor.md', 'settings', monitorSettingsTable());
  });

  test('few particles', () => {
    const limit = 'the limit of the setpoint, in particles counted';
    const clears = ['oil of 2 x the limit, cleared by one reading', '0.9 x', '0.7 x', '0.5 x', '0.35 x'];
    makePart('docs/monitor.md', 'few that clear', markdownTable([limit, ...clears], returnRows()));
    const raises = ['0.5 x', '0.7 x', '0.9 x', 'readings until oil of 2 x is raised', '4 x', '8 x'];
    const header = [limit, 'raises a unit-year of oil of 0.35 x the limit', ...raises];
    makePart('docs/monitor.md', 'few that raise', markdownTable(header, raiseRows()));
    const delays = [1.5, 2].flatMap((times) => [3, 18, 180].map((n) => `${times} x, ${n} intervals`));
    makePart('docs/monitor.md', 'few and a delay', markdownTable([limit, ...delays], delayRows()));
  });

  test.runIf(full)('what comes and goes', () => {
    const numbers = [1, 3, 5, 10, 60];
    const rows = Object.keys(faults).map((name) => {
      const told = numbers.map((restoredAfter) => eventsOf(name, restoredAfter));
      const turns = told.map(({ quality_bad = 0, quality_restored = 0 }) => `${quality_bad}, ${quality_restored}`);
      const others = told.map(({ quality_bad: _bad, quality_restored: _restored, ...rest }) => rest);
      for (const one of others) expect(one).toEqual(others[0]);
      const words = Object.entries(others[0] ?? {}).map(([event, count]) => `\`${event}\` ${count}`);
      return [name, ...turns, words.join(', ')];
    });
    const header = ['what is wrong', '`restoredAfter` 1', ...numbers.slice(1).map(String), 'other events'];
    makePart('docs/monitor.md', 'come and go', markdownTable(header, rows));
  });
});

describe('docs/readings.md', () => {
  test('the members of a reading', () => {
    makePart('docs/readings.md', 'members', membersTable());
  });

  test('the findings', () => {
    const items = findingCodes.map((code) => {
      const all = touchedBy(code).length === 6;
      const touched = all
        ? 'all figures'
        : touchedBy(code)
            .map((name) => `\`${name}\``)
            .join(', ') || 'no figure';
      const told = `${reading.defaultReadingLimits.qualities[code]}, ${touched}`;
      return listItem(`**\`${code}\`** (${told}): ${reading.englishFindingTexts.findings[code]}`);
    });
    makePart('docs/readings.md', 'findings', items.join('\n'));
  });
});

test.each(['service', 'files', 'sqlite'])('docs/service.md shows %s.mjs as it runs', (name) => {
  const code = readFileSync(`docs/examples/service/${name}.mjs`, 'utf8');
  makePart('docs/service.md', name, `\`\`\`js\n${code}\`\`\``);
});

test('docs/fleet.md shows the loop of a worker as it runs', () => {
  const code = readFileSync('docs/examples/fleet/worker.mjs', 'utf8');
  makePart('docs/fleet.md', 'worker', `\`\`\`js\n${code}\`\`\``);
});

test('docs/fleet.md shows the SQL that goes back as the trial runs it', () => {
  makePart('docs/fleet.md', 'goBack', `\`\`\`sql\n${readFileSync('docs/examples/fleet/goBack.sql', 'utf8')}\`\`\``);
});

test.each([
  ['gateway', 'js'],
  ['plant', 'js'],
  ['duktape', 'c'],
  ['mujs', 'c'],
  ['quickjs', 'mjs'],
])('docs/gateways.md shows %s.%s as it runs', (name, ending) => {
  const code = readFileSync(`docs/examples/gateways/${name}.${ending}`, 'utf8');
  makePart('docs/gateways.md', name, `\`\`\`${ending === 'c' ? 'c' : 'js'}\n${code}\`\`\``);
});

describe('docs/commissioning.md', () => {
  test('the data of the example', () => {
    const { tank, oil, pump, sensor, wanted, pressureLine, returnLine, offLine, bottle, target } = gate;
    const tube = ({ metres, boreMm }: { metres: number; boreMm: number }) => `${metres} m of ${boreMm} mm`;
    const band = ({ low, high }: { low: number; high: number }) => `${low} to ${high}`;
    const rows = [
      ['tank, target', `${tank.litres} L, ${target} (ISO 4406)`],
      ['oil', `ISO VG ${oil.isoGrade}, viscosity index ${oil.viscosityIndex}, ${oil.kgPerM3} kg/m³`],
      ['oil temperature', `${oil.warmCelsius} °C warm, ${oil.coldCelsius} °C on a cold morning`],
      ["the machine's pump", `${pump.litresPerMin} L/min, pressure line at ${pump.workingKPa / 100} bar`],
      [
        'sensor (its data sheet)',
        `${band(sensor.mlPerMin)} mL/min, ${band(sensor.celsius)} °C, ${sensor.leastKPa} to ${sensor.mostKPa} kPa, ` +
          'up to ' +
          `${sensor.mostMm2PerS} mm²/s and ${sensor.coincidencePerMl} particles per mL; ${sensor.shortestSeconds} s ` +
          'or longer',
      ],
      ['wanted flow', `${wanted.mlPerMin} mL/min`],
      ['pressure line', `restrictor ${tube(pressureLine.restrictor)}, then ${tube(pressureLine.feed)} to the sensor`],
      ['return line', `${returnLine.kPa} kPa at the tap, ${tube(returnLine.feed)} to the sensor`],
      [
        'off-line',
        `${tube(offLine.suction)} from the tank, ${-offLine.suction.riseMetres} m down to the pump, ` +
          `${tube(offLine.feed)} to the ` +
          `sensor; pump inlet at least ${offLine.inletLimitKPa} kPa absolute, relief valve at ${offLine.reliefKPa} kPa`,
      ],
      ['back to the tank', tube(offLine.back)],
      ['bottle', `${bottle.millilitres} mL; the stub at the valve ${tube(bottle.stub)}, ${bottle.mlPerMin} mL/min`],
    ];
    makePart('docs/commissioning.md', 'lower-gate', markdownTable(['what', 'figure'], rows));
  });

  test('what chance leaves open', () => {
    const usual = { '4 µm(c)': 650, '6 µm(c)': 205, '14 µm(c)': 19 };
    const three = (value: number) => String(Number(value.toPrecision(3)));
    const rows = Object.entries(usual).flatMap(([size, perMl]) =>
      [gate.sensor.shortestSeconds, 40].map((seconds) => {
        const { expected, relativeError, low, high } = countingConfidence({
          perMl,
          mlPerMin: gate.wanted.mlPerMin,
          seconds,
        });
        const numbers = [...new Set([low, high].map((end) => codes.scaleNumber(end)))].join(' to ');
        const error = `${(100 * (relativeError as number)).toFixed(1)} %`;
        return [size, `${perMl}`, `${seconds} s`, `${expected}`, error, `${three(low)} to ${three(high)}`, numbers];
      }),
    );
    const header = [
      'size',
      'per mL',
      'time',
      'particles expected',
      'relative error',
      '95 % limits per mL',
      'scale number',
    ];
    makePart('docs/commissioning.md', 'counting', markdownTable(header, rows));
  });
});

test('docs/interpolation.md: the error of each method with one size left out', () => {
  const inner = table4.rows.slice(1, -1);
  const error = (size: number, method: 'monotone' | 'log_log' | 'log_log2') => {
    const rest = table4.rows.filter((row) => row.size !== size);
    const counts = cumulativeCounts(Object.fromEntries(rest.map((row) => [row.size, row.midpoints['10']])));
    const truth = table4.rows.find((row) => row.size === size)?.midpoints['10'] as number;
    return (100 * (countAt(counts, size, { method }).perMl / truth - 1)).toFixed(1);
  };
  const rows = (['monotone', 'log_log', 'log_log2'] as const).map((method) => [
    `\`${method}\``,
    ...inner.map((row) => error(row.size, method)),
  ]);
  makePart('docs/interpolation.md', 'hold-out', markdownTable(['µm(c)', ...inner.map((row) => `${row.size}`)], rows));
});

test('docs/comparison.md: printed correspondence beside the answers', () => {
  const tables: Record<string, codes.ClassTable> = { ...codes } as never;
  const span = ({ lowest, highest }: codes.ClassSpan) => (lowest === highest ? lowest : `${lowest} to ${highest}`);
  // a document is identified by title, number and year
  const heading = (standing: string, edition: string) => {
    if (standing === 'computed') return 'computed';
    return edition === '' ? 'printed, source not identified' : 'published';
  };
  const parts = Object.values(correspondence).map(({ source, standing, to, rows }) => {
    const table = tables[to] as codes.ClassTable;
    const body = (rows as [string, string][]).map(([code, className]) => {
      const from = code.split('/').length === 3 ? codes.iso4406 : codes.iso4406Microscope;
      const known = codes.limitsOf(from, code);
      return [code, className, span(codes.likelyClasses(table, known)), span(codes.possibleClasses(table, known))];
    });
    const title = `**${table.title}**\n(${[source.document, source.place].join('; ')})`;
    return `${title}\n\n${markdownTable(['ISO 4406', heading(standing, source.edition), 'likely', 'certain'], body)}`;
  });
  makePart('docs/comparison.md', 'correspondence', parts.join('\n\n'));
});

describe('docs/comparison.md: how often the likely classes hold the truth', () => {
  /** A table of the page; no cell below the least share. */
  function coverageOf(oils: typeof shapes, least: number): string {
    const rows: string[][] = [];
    for (const known of ['counts', 'code'] as const) {
      for (const [shape, draw] of Object.entries(oils)) {
        const cells = measuredTables.map((table) => {
          const { within, width, certainWidth } = measure(known, table, draw, 400, 4406);
          expect(within, `${known}, ${shape}`).toBeGreaterThanOrEqual(least);
          return `${(100 * within).toFixed(1)} %, ${width.toFixed(1)} of ${certainWidth.toFixed(1)}`;
        });
        rows.push([known, shape, ...cells]);
      }
    }
    return markdownTable(['known', 'oils', ...measuredTables.map(({ standard }) => standard as string)], rows);
  }

  test.runIf(full)('over the stated population, in at least 97 %', () =>
    makePart('docs/comparison.md', 'coverage', coverageOf(shapes, 0.97)),
  );

  test.runIf(full)('over harsher wear, less often', () =>
    makePart('docs/comparison.md', 'harsher wear', coverageOf(harsherShapes, 0.85)),
  );
});

describe('docs/sure.md', () => {
  const counts = cumulativeCounts({ 4: 12600, 6: 4700, 14: 330 }, { volumeMl: 10 });
  const sure = codes.codeUncertainty(codes.iso4406, counts);
  const percent = (share: number, decimals: number) => `${(100 * share).toFixed(decimals)} %`;

  test('the probability of each scale number, as bars', () => {
    const rows = sure.columns.map(({ column, perMl, low, high, probabilities }) => {
      const shown = probabilities.filter(({ probability }) => probability >= 0.005);
      const bars = shown.map(({ class: name, probability }) => {
        const whole = Math.round(100 * probability);
        return `${name} ${'█'.repeat(Math.max(1, Math.round(20 * probability)))} ${whole === 100 ? '>99' : whole} %`;
      });
      return [`${column} µm(c)`, String(perMl), `${low.toFixed(0)} to ${high.toFixed(0)}`, bars.join('<br>')];
    });
    const header = ['size', 'per mL', '95 % limits', 'probability of each scale number'];
    makePart('docs/sure.md', 'bars', markdownTable(header, rows));
  });

  test('the budget at the smallest size', () => {
    const rows = sure.budget
      .filter(({ column }) => column === '4')
      .map((row) => [
        row.part,
        percent(row.standard, 1),
        row.sensitivity.toFixed(1),
        percent(row.relative, 1),
        percent(row.share, 0),
        row.basis.replace(/_/g, ' '),
      ]);
    const header = ['part', 'its own', 'times', 'of the count', 'share of the variance', 'basis'];
    makePart('docs/sure.md', 'budget', markdownTable(header, rows));
  });
});

describe('docs/sources.md', () => {
  const entries: readonly [string, Readonly<Record<string, Source>>][] = [
    ...Object.entries(motescale.sources),
    ['exact', exact.sources],
    ['schema', schema.sources],
  ];

  test('is made from the sources of the entries', async () => {
    const parts = entries.map(([entry, sources]) => {
      const rows = Object.entries(sources).map(([name, { document, edition, place, standing }]) => {
        return [`\`${name}\``, document, edition, place, standing];
      });
      return `## ${entry}\n\n${markdownTable(['name', 'document', 'edition', 'place', 'standing'], rows)}`;
    });
    const page = `# Sources

Made from the sources in the code. Each entry exports its own as \`sources\`:
\`sources.viscosityLine\` of \`motescale/viscosity\`; \`motescale\`
has them by entry: \`sources.viscosity.viscosityLine\`.

- \`published\`: printed in the document, read there; where one reprint or quotation was read, the place says so.
- \`reproduced\`: two independent reproductions of it agree; the document itself was not seen.
- \`computed\`: worked out from a formula that has a source.
- \`common practice\`: a rule of the trade without a document.
- \`from memory\`: recalled, not seen in print; confirm before relying on it.

${parts.join('\n\n')}
`;
    await expect(page).toMatchFileSnapshot('../../docs/sources.md');
  });

  test('each source has a document, an edition, a place and a standing', () => {
    for (const [entry, sources] of entries) {
      for (const [name, source] of Object.entries(sources)) {
        const { document, edition, place, standing } = source;
        for (const text of [document, edition, place]) expect(text, `${entry}.${name}`).not.toBe('');
        expect(standings, `${entry}.${name}`).toContain(standing);
      }
    }
  });

  test('no source in the code is left out', () => {
    const given = new Set(entries.flatMap(([, sources]) => Object.values(sources)));
    const standing = new RegExp(`standing: '(${standings.join('|')})'`, 'g');
    const written = filesBelow('src', '.ts').flatMap((file) => readFileSync(file, 'utf8').match(standing) ?? []);
    // the source of a user's own table, where none is given, is no source of the library
    expect(written.length - 1).toBe(given.size);
  });

  test('the table of each code is in the sources, by its id', () => {
    expect(codes.sources).toMatchObject(Object.fromEntries(codes.standardTables.map(({ id, source }) => [id, source])));
  });
});

test('pages stand as their parts are made', async () => {
  for (const [page, text] of pages) await expect(text, page).toMatchFileSnapshot(`../../${page}`);
});

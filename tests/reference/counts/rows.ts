/** Printed values of counts: sizes, limits of chance, test dust, coincidence, interpolation. */
import {
  coincidenceLoss,
  convertSizing,
  correctCoincidence,
  countAt,
  countInterval,
  cumulativeCounts,
  testDustCounts,
  undilute,
} from '../../../src/counts/index.ts';
import { type Row, rowsOf, value } from '../ledger.ts';
import calibration from './calibration.json' with { type: 'json' };
import coincidence from './coincidence.json' with { type: 'json' };
import dilution from './dilution.json' with { type: 'json' };
import interpolation from './interpolation.json' with { type: 'json' };
import iso14644 from './iso14644.json' with { type: 'json' };
import table4 from './iso16889-table4.json' with { type: 'json' };
import poisson from './poisson.json' with { type: 'json' };

function sizes(): Row[] {
  const pairs = calibration.pairs as [number, number][];
  return [
    ...rowsOf(
      calibration,
      pairs.map(([old, size]) =>
        value('convertSizing', { iso4402: old }, size, 0, () => convertSizing(old, 'iso4402', 'iso11171')),
      ),
    ),
    // the same pairs read the other way
    ...rowsOf(
      { ...calibration, standing: 'reprint' },
      pairs.map(([old, size]) =>
        value('convertSizing', { iso11171: size }, old, 0, () => convertSizing(size, 'iso11171', 'iso4402')),
      ),
    ),
  ];
}

function chance(): Row[] {
  const ends = ['low', 'high'] as const;
  return [
    ...[poisson.published, poisson.computed].flatMap((table) =>
      rowsOf(
        table,
        table.rows.flatMap(({ n, confidence, ...limits }) =>
          ends.map((end) =>
            value(
              'countInterval',
              { n, confidence, end },
              limits[end],
              table.within,
              () => countInterval(n, { confidence })[end],
            ),
          ),
        ),
      ),
    ),
    ...rowsOf(
      poisson.ratios,
      poisson.ratios.rows.flatMap(({ n, ratio, ...limits }) =>
        ends.map((end) => {
          // the ratio itself is printed to two decimals, so the expected count behind it is known to half a hundredth
          const relative = countInterval(n)[end] / n;
          return value(
            'countInterval',
            { n, ratio, end },
            limits[end],
            0.005 * (1 + relative) + 1e-12,
            () => (countInterval(n)[end] / n) * ratio,
          );
        }),
      ),
    ),
  ];
}

function coincidences(): Row[] {
  const { rows: printed, ...cited } = coincidence;
  return rowsOf(
    cited,
    printed.flatMap(({ id, inputs, expected, tolerance }) => {
      const model = id.startsWith('wales')
        ? 'wales_wilson'
        : id.startsWith('princen')
          ? 'princen_kwolek'
          : 'paralyzable';
      const options = { sensingVolumeMl: 1, model } as const;
      const given = inputs as { trueTimesV?: number; observedTimesV?: number; N_over_L?: number; loss?: number };
      if (typeof expected === 'number') {
        return [
          value(
            'coincidenceLoss',
            inputs,
            given.loss as number,
            5e-8,
            () => coincidenceLoss(expected, options).loss,
            id,
          ),
        ];
      }
      const wanted = expected as {
        observedTimesV?: number;
        Nobs_over_L?: number;
        trueTimesV?: number;
        lossFraction?: number;
      };
      if (given.observedTimesV !== undefined) {
        const observed = given.observedTimesV;
        return [
          value(
            'correctCoincidence',
            inputs,
            wanted.trueTimesV as number,
            tolerance,
            () => correctCoincidence(observed, options).perMl,
            id,
          ),
        ];
      }
      const truth = given.trueTimesV ?? given.N_over_L ?? (wanted.trueTimesV as number);
      const found = () => coincidenceLoss(truth, options);
      const observed = (wanted.observedTimesV ?? wanted.Nobs_over_L) as number;
      const loss = wanted.lossFraction;
      return [
        value('coincidenceLoss', inputs, observed, tolerance, () => found().observedPerMl, id),
        ...(loss === undefined
          ? []
          : [value('coincidenceLoss', inputs, loss, tolerance, () => found().loss, `${id}, loss`)]),
      ];
    }),
  );
}

/** The printed range of each size: its middle, and half its width as the tolerance. */
function testDust(): Row[] {
  return (['3', '10', '15'] as const).flatMap((level) =>
    rowsOf(
      table4,
      table4.rows.map(({ size, ranges }, i) => {
        const [low, high] = ranges[level] as [number, number];
        const range = `${low} to ${high}`;
        return value(
          'testDustCounts',
          { mgPerL: Number(level), size, range },
          (low + high) / 2,
          (high - low) / 2,
          () => testDustCounts(Number(level)).perMl[i],
        );
      }),
    ),
  );
}

function between(): Row[] {
  const { rows: worked, ...cited } = interpolation.formulas;
  return [
    ...rowsOf(
      cited,
      worked.map(({ id, inputs, expected, tolerance }) => {
        const method = id.startsWith('loglog2') ? 'log_log2' : 'log_log';
        const counts = cumulativeCounts({ [inputs.d0]: inputs.N0, [inputs.d1]: inputs.N1 });
        return value('countAt', inputs, expected, tolerance, () => countAt(counts, inputs.d, { method }).perMl, id);
      }),
    ),
    ...rowsOf(
      dilution,
      dilution.rows.map(({ perMl, ...mixture }) => value('undilute', mixture, perMl, 5e-7, () => undilute(mixture))),
    ),
  ];
}

/** A printed limit between two others, on the straight line through them; each is rounded to half of its last digit. */
function alongPower(): Row[] {
  return rowsOf(
    iso14644,
    Object.entries(iso14644.classes).flatMap(([name, limits]) => {
      const printed = Object.entries(limits).map(([size, limit]) => ({ size: Number(size), limit: limit as number }));
      return printed.slice(1, -1).map(({ size, limit }, i) => {
        const [low, high] = [printed[i], printed[i + 2]] as [(typeof printed)[0], (typeof printed)[0]];
        // three figures, or a whole number: the greater of both as a share, once for each of the three limits
        const share = [low, { limit }, high].reduce((sum, one) => sum + Math.max(0.005, 0.5 / one.limit), 0);
        const counts = cumulativeCounts({ [low.size]: low.limit, [high.size]: high.limit });
        return value('countAt', { class: name, size }, limit, limit * share, () => {
          return countAt(counts, size, { method: 'log_log' }).perMl;
        });
      });
    }),
  );
}

export const rows: readonly Row[] = [
  ...sizes(),
  ...chance(),
  ...coincidences(),
  ...testDust(),
  ...between(),
  ...alongPower(),
];

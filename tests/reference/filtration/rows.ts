/** Printed efficiencies of filters, and times to clear a volume. */
import { efficiencyOfBeta, timeToReach } from '../../../src/filtration/index.ts';
import { type Row, rowsOf, value } from '../ledger.ts';
import beta from './beta.json' with { type: 'json' };
import clearance from './clearance.json' with { type: 'json' };

function efficiencies(): Row[] {
  return beta.rows.flatMap(({ beta: ratio, printedPercent, standing }) => {
    const decimals = printedPercent.split('.')[1]?.length ?? 0;
    const tolerance = 0.5 * 10 ** -decimals + 1e-9;
    return rowsOf({ source: beta.source, standing }, [
      value(
        'efficiencyOfBeta',
        { beta: ratio },
        Number(printedPercent),
        tolerance,
        () => efficiencyOfBeta(ratio) * 100,
      ),
    ]);
  });
}

/** A room whose air is changed is a tank whose filter lets nothing pass; whole minutes are printed. */
function clearances(): Row[] {
  const shares = { p90: 0.1, p99: 0.01, p99_9: 0.001 } as const;
  return rowsOf(
    clearance,
    clearance.rows.flatMap((row) =>
      (Object.keys(shares) as (keyof typeof shares)[]).map((share) => {
        const room = { litres: 60, litresPerMin: row.perHour, beta: Infinity, perMl: 1 };
        const inputs = { changesPerHour: row.perHour, left: shares[share] };
        return value('timeToReach', inputs, row[share], 0.5, () => timeToReach(room, shares[share]));
      }),
    ),
  );
}

export const rows: readonly Row[] = [...efficiencies(), ...clearances()];

/** Worked examples of lines and settling in print, and lifts by hydrostatics. */
import {
  flowForPressure,
  flush,
  frictionFactor,
  lineFlow,
  settlingVelocity,
  suctionLift,
  suctionLimits,
} from '../../../src/sampling/index.ts';
import { feetToMetres, inchHgToKPa, psiToKPa, usGallonsToLitres } from '../../../src/units.ts';
import { type Row, rowsOf, type Value, value } from '../ledger.ts';
import fittings from './fittings.json' with { type: 'json' };
import flushes from './flush.json' with { type: 'json' };
import laminarPipes from './laminarPipes.json' with { type: 'json' };
import lifts from './lifts.json' with { type: 'json' };
import nozzles from './nozzles.json' with { type: 'json' };
import reynoldsNumbers from './reynolds.json' with { type: 'json' };
import settling from './settling.json' with { type: 'json' };
import turbulentPipes from './turbulentPipes.json' with { type: 'json' };

interface Printed {
  readonly value: number;
  readonly abs?: number;
  readonly rel?: number;
}

const room = ({ value: printed, abs, rel }: Printed) => Math.max(abs ?? 0, (rel ?? 0) * Math.abs(printed));

const millilitresPerMin = 6e7;

function laminar(): Row[] {
  return laminarPipes.cases.flatMap((given) => {
    const fluid = { mm2PerS: (given.mu / given.rho) * 1e6, kgPerM3: given.rho };
    const riseMetres = given.L * Math.sin((given.degrees * Math.PI) / 180);
    const segments = [{ metres: given.L, boreMm: given.D * 1000, riseMetres }];
    const mlPerMin =
      given.Q === undefined
        ? flowForPressure({ segments, kPa: (given.dp as number) / 1000, fluid }).mlPerMin
        : given.Q * millilitresPerMin;
    const line = () => lineFlow({ segments, mlPerMin, fluid });
    const found: Record<string, () => number | undefined> = {
      Q: () => mlPerMin / millilitresPerMin,
      V: () => line().segments[0]?.metresPerS,
      Re: () => line().reynolds,
      dp: () => line().kPa * 1000,
      tau: () => line().segments[0]?.wallShearPa,
    };
    const values: Value[] = Object.entries(given.expected as Record<string, Printed>).map(([name, printed]) =>
      value(
        name === 'Q' ? 'flowForPressure' : 'lineFlow',
        { example: given.name, figure: name },
        printed.value,
        room(printed),
        found[name] as () => number | undefined,
      ),
    );
    const regime = value('lineFlow', { example: given.name, figure: 'regime' }, 'laminar', 0, () => line().regime);
    return [...rowsOf(given, values), ...rowsOf({ ...given, standing: 'computed' }, [regime])];
  });
}

function turbulent(): Row[] {
  const [smooth, steel] = turbulentPipes.cases as [
    (typeof turbulentPipes.cases)[0],
    Required<(typeof turbulentPipes.cases)[1]> & { readonly expected: { readonly dp: Printed } },
  ];
  const boreMm = steel.bore * 1000;
  const fluid = { mm2PerS: steel.mm2PerS, kgPerM3: steel.rho };
  const mlPerMin = steel.flow * millilitresPerMin;
  const pipe = { metres: steel.metres, boreMm, roughnessMm: steel.roughnessMm };
  // with the factor of the chart, entered as a loss coefficient f L / D, the printed answer
  const k = (steel.expected.f.value * steel.metres) / steel.bore;
  const { fullyTurbulent } = turbulentPipes;
  const { f, dp } = { f: smooth.expected.f, dp: steel.expected.dp };
  return [
    ...rowsOf(smooth, [
      value(
        'frictionFactor',
        smooth.name,
        f.value,
        room(f),
        () => frictionFactor(smooth.reynolds as number, smooth.relativeRoughness).factor,
      ),
    ]),
    ...rowsOf(steel, [
      value(
        'frictionFactor',
        steel.name,
        steel.expected.f.value,
        room(steel.expected.f),
        () => lineFlow({ segments: [pipe], mlPerMin, fluid }).segments[0]?.frictionFactor,
      ),
      value(
        'lineFlow',
        steel.name,
        dp.value,
        room(dp),
        () => lineFlow({ segments: [{ metres: 0, boreMm, k }], mlPerMin, fluid }).kPa * 1000,
      ),
    ]),
    // with Colebrook's factor, as near as the two digits of the chart allow
    ...rowsOf({ ...steel, standing: 'reprint' }, [
      value(
        'lineFlow',
        `${steel.name}, factor computed`,
        dp.value,
        0.015 * dp.value,
        () => lineFlow({ segments: [pipe], mlPerMin, fluid }).kPa * 1000,
      ),
    ]),
    ...rowsOf(
      fullyTurbulent,
      fullyTurbulent.points.map(({ boreMm: bore, reynolds, factor }) =>
        value(
          'frictionFactor',
          { boreMm: bore, reynolds },
          factor,
          fullyTurbulent.abs,
          () => frictionFactor(reynolds, fullyTurbulent.roughnessMm / bore).factor,
        ),
      ),
    ),
  ];
}

/** A nozzle without loss turns all pressure into one velocity head. */
function throughNozzles(): Row[] {
  const fluid = { mm2PerS: 1, kgPerM3: 1000 };
  return rowsOf(
    nozzles,
    nozzles.cases.map((given) => {
      const segments = [{ metres: 0, boreMm: given.inch * 25.4, k: 1 }];
      const kPa = 9.80665 * feetToMetres(given.headFeet);
      const flow = () => flowForPressure({ segments, kPa, fluid }).mlPerMin;
      const { usGallonsPerMin, feetPerS, abs, rel } = given as Record<string, number>;
      const inputs = { inch: given.inch, headFeet: given.headFeet };
      if (usGallonsPerMin !== undefined) {
        const tolerance = room({ value: usGallonsPerMin, abs, rel } as Printed);
        return value(
          'flowForPressure',
          inputs,
          usGallonsPerMin,
          tolerance,
          () => flow() / 1000 / usGallonsToLitres(1),
          JSON.stringify({ ...inputs, unit: 'US gal/min' }),
        );
      }
      const printed = { value: feetPerS, abs, rel } as Printed;
      return value(
        'lineFlow',
        inputs,
        printed.value,
        room(printed),
        () => (lineFlow({ segments, mlPerMin: flow(), fluid }).segments[0]?.metresPerS as number) / feetToMetres(1),
      );
    }),
  );
}

function suction(): Row[] {
  return rowsOf(
    lifts,
    lifts.cases.flatMap(({ inchHg, feet }) => {
      const standing = {
        segments: [{ metres: 10, boreMm: 8, riseMetres: feetToMetres(feet) }],
        mlPerMin: 0,
        fluid: { mm2PerS: 3, kgPerM3: lifts.kgPerM3 },
      };
      const inletLimitKPa = 101.325 - inchHgToKPa(inchHg);
      return [
        value(
          'suctionLimits',
          { inchHg },
          feet,
          1e-5 * feet,
          () => suctionLimits({ ...standing, inletLimitKPa }).liftMetres / feetToMetres(1),
        ),
        value(
          'suctionLift',
          { feet },
          inchHg,
          1e-5 * inchHg,
          () => (101.325 - suctionLift(standing).inletKPa) / inchHgToKPa(1),
        ),
      ];
    }),
  );
}

/** Lifts as printed: in quarters of a foot, and to two figures. */
function printedLifts(): Row[] {
  const { printed, head } = lifts;
  const still = (kgPerM3: number, feet: number) => ({
    segments: [{ metres: 10, boreMm: 8, riseMetres: feetToMetres(feet) }],
    mlPerMin: 0,
    fluid: { mm2PerS: 3, kgPerM3 },
  });
  return [
    ...rowsOf(
      printed,
      printed.cases.map(({ inchHg, feet }) =>
        value('suctionLimits', { inchHg }, feet, printed.tolerance, () => {
          const inletLimitKPa = 101.325 - inchHgToKPa(inchHg);
          return suctionLimits({ ...still(lifts.kgPerM3, feet), inletLimitKPa }).liftMetres / feetToMetres(1);
        }),
      ),
    ),
    ...rowsOf(head, [
      value('suctionLift', { kgPerM3: head.kgPerM3 }, head.psiPerFoot, head.tolerance, () => {
        return (101.325 - suctionLift(still(head.kgPerM3, 1)).inletKPa) / psiToKPa(1);
      }),
    ]),
  ];
}

function spheres(): Row[] {
  return settling.cases.flatMap((given) => {
    const fluid = { mm2PerS: (given.mu / given.rho) * 1e6, kgPerM3: given.rho };
    // the g that the case names
    const g = given.name.includes('9.81') ? 9.81 / 9.80665 : 1;
    return rowsOf(given, [
      value(
        'settlingVelocity',
        given.name,
        given.expected.value,
        room(given.expected),
        () => settlingVelocity({ size: given.d * 1e6, particleKgPerM3: given.particle, fluid }) * g,
      ),
    ]);
  });
}

function reynolds(): Row[] {
  return reynoldsNumbers.cases.flatMap(({ litresPerMin, boreMm, mm2PerS, expected, abs, ...cited }) =>
    rowsOf(cited, [
      value(
        'lineFlow',
        { litresPerMin, boreMm, mm2PerS },
        expected,
        abs,
        () =>
          lineFlow({
            segments: [{ metres: 1, boreMm }],
            mlPerMin: litresPerMin * 1000,
            fluid: { mm2PerS, kgPerM3: 870 },
          }).reynolds,
      ),
    ]),
  );
}

function renewals(): Row[] {
  return flushes.cases.flatMap(({ renewal, meanTransits, abs, ...cited }) =>
    rowsOf(cited, [
      value(
        'flush',
        { renewal },
        meanTransits,
        abs,
        () => flush({ volumeMl: 50, mlPerMin: 100, renewal }).seconds / 30,
      ),
    ]),
  );
}

function twoK(): Row[] {
  return rowsOf(
    fittings,
    fittings.cases.map(({ what, boreMm, mlPerMin, mm2PerS, kgPerM3, k1, k, kPa, abs }) => {
      const line = { segments: [{ metres: 0, boreMm, k1, k }], mlPerMin, fluid: { mm2PerS, kgPerM3 } };
      return value('lineFlow', line, kPa, abs, () => lineFlow(line).fittingsKPa, what);
    }),
  );
}

function carriedOver(): Row[] {
  return flushes.carryOver.flatMap(({ meanTransits, abs, linePerMl, tankPerMl, share, ...cited }) => {
    const carryOver = { linePerMl, tankPerMl, share };
    const seconds = () => flush({ volumeMl: 50, mlPerMin: 100, carryOver }).seconds / 30;
    return rowsOf(cited, [value('flush', carryOver, meanTransits, abs, seconds)]);
  });
}

/** A flow that makes 3 ft/s, by a rule of thumb in print. */
function flushingRule(): Row[] {
  const { inch, usGallonsPerMin, feetPerS, rel, ...cited } = flushes.rule;
  const segments = [{ metres: 1, boreMm: inch * 25.4 }];
  const mlPerMin = usGallonsToLitres(usGallonsPerMin) * 1000;
  return rowsOf(cited, [
    value('lineFlow', { inch, usGallonsPerMin }, feetPerS, rel * feetPerS, () => {
      const line = lineFlow({ segments, mlPerMin, fluid: { mm2PerS: 32, kgPerM3: 870 } });
      return (line.segments[0]?.metresPerS as number) / feetToMetres(1);
    }),
  ]);
}

export const rows: readonly Row[] = [
  ...laminar(),
  ...turbulent(),
  ...throughNozzles(),
  ...suction(),
  ...printedLifts(),
  ...spheres(),
  ...reynolds(),
  ...renewals(),
  ...carriedOver(),
  ...twoK(),
  ...flushingRule(),
];

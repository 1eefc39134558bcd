/** Density, API gravity and blends. */
import { fahrenheitToCelsius } from '../../../src/units.ts';
import { apiOfRelativeDensity, relativeDensityOfApi } from '../../../src/viscosity/apiGravity.ts';
import { blendViscosity, refutasNumber } from '../../../src/viscosity/blending.ts';
import { densityAt, densityAt15Of60F } from '../../../src/viscosity/density.ts';
import { type Row, rowsOf, value } from '../ledger.ts';
import blending from './blending.json' with { type: 'json' };
import density from './density.json' with { type: 'json' };

const from60F = (kgPerM3At60F: number, fahrenheit: number) =>
  densityAt(densityAt15Of60F(kgPerM3At60F), fahrenheitToCelsius(fahrenheit));

function densities(): Row[] {
  const { apiGravity, factorAtBase, edition2004, edition1980 } = density;
  return [
    ...rowsOf(
      apiGravity,
      apiGravity.points.map(({ degreesApi, relativeDensity }) =>
        value('relativeDensityOfApi', { degreesApi }, relativeDensity, apiGravity.tolerance, () =>
          relativeDensityOfApi(degreesApi),
        ),
      ),
    ),
    // the same cells read the other way; half a unit of the fourth decimal is up to 0.012 °API
    ...rowsOf(
      { ...apiGravity, standing: 'reprint' },
      apiGravity.points.map(({ degreesApi, relativeDensity }) =>
        value('apiOfRelativeDensity', { relativeDensity }, degreesApi, 0.02, () =>
          apiOfRelativeDensity(relativeDensity),
        ),
      ),
    ),
    ...rowsOf(
      factorAtBase,
      factorAtBase.points.map(({ kgPerM3At60F, fahrenheit, factor }) =>
        value(
          'densityAt',
          { kgPerM3At60F, fahrenheit },
          factor,
          factorAtBase.tolerance,
          () => from60F(kgPerM3At60F, fahrenheit) / kgPerM3At60F,
        ),
      ),
    ),
    ...rowsOf(
      edition2004,
      edition2004.points.map(({ kgPerM3At60F, fahrenheit, kgPerM3 }) =>
        value('densityAt', { kgPerM3At60F, fahrenheit }, kgPerM3, edition2004.relativeTolerance * kgPerM3, () =>
          from60F(kgPerM3At60F, fahrenheit),
        ),
      ),
    ),
    ...rowsOf(
      edition1980,
      edition1980.points.map(({ kgPerM3At15, celsius, kgPerM3 }) =>
        value('densityAt', { kgPerM3At15, celsius }, kgPerM3, edition1980.relativeTolerance * kgPerM3, () =>
          densityAt(kgPerM3At15, celsius),
        ),
      ),
    ),
  ];
}

function blends(): Row[] {
  return (['astm', 'refutas'] as const).flatMap((method) => {
    const { relativeTolerance, points, ...cited } = blending[method];
    return rowsOf(
      cited,
      points.map(({ parts, mm2PerS }) =>
        value('blendViscosity', { parts, method }, mm2PerS, relativeTolerance * mm2PerS, () =>
          blendViscosity(
            (parts as [number, number][]).map(([fraction, of]) => ({ fraction, mm2PerS: of })),
            method,
          ),
        ),
      ),
    );
  });
}

/** The printed coefficients of the blending number, found again from two numbers. */
function coefficients(): Row[] {
  const { refutasCoefficients: printed } = blending;
  const order = (mm2PerS: number) => Math.log(Math.log(mm2PerS + 0.8));
  const factor = () => (refutasNumber(460) - refutasNumber(32)) / (order(460) - order(32));
  const found = { factor, constant: () => refutasNumber(32) - factor() * order(32) };
  return rowsOf(
    printed,
    (['factor', 'constant'] as const).map((name) =>
      value('refutasNumber', { coefficient: name }, printed[name], 1e-9, found[name]),
    ),
  );
}

export const rows: readonly Row[] = [...densities(), ...blends(), ...coefficients()];

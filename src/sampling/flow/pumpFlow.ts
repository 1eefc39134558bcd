/** What a pump delivers: displacement, speed, and the share of it that does not slip back. */
import { requireMeasure, requireObject } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';

/** A pump that displaces the same volume at each turn. */
export interface Pump {
  /** Displacement, mL (cm³) a revolution, 1e-6 to 1e6. */
  readonly mlPerRevolution: number;
  /**
   * Volumetric efficiency as a share, 0.01 to 1: 0.92 for 92 %. It falls with pressure, with thinner oil and with wear,
   * and in thick oil that does not fill the pump. The data sheet gives it for one pressure and viscosity.
   */
  readonly volumetricEfficiency: number;
}

const fastest = 1e6;

/**
 * The flow of a pump, in mL/min: displacement x speed x volumetric efficiency.
 *
 * Source: definition of the volumetric efficiency (ISO 4391, from memory). As sure as the efficiency: measure the flow
 * where it matters.
 *
 * Safety: a pump of this kind delivers against whatever stands in its way, up to bursting: it needs a relief valve.
 *
 * @param pump `revolutionsPerMin` from 0 to 1e6
 * @throws `out_of_range`, `negative`; errors of type.
 *
 * @example
 * ```ts
 * import { pumpFlow } from 'motescale/sampling';
 * pumpFlow({ mlPerRevolution: 16, revolutionsPerMin: 1450, volumetricEfficiency: 0.92 }) / 1000; // ~> 21.34
 * ```
 */
export function pumpFlow(pump: Pump & { readonly revolutionsPerMin: number }): number {
  const perRevolution = requirePump(pump, 'revolutionsPerMin');
  const { revolutionsPerMin } = pump;
  return perRevolution * requireMeasure(revolutionsPerMin, 'pump.revolutionsPerMin', 0, fastest, 'a speed in 1/min');
}

/**
 * The speed, in revolutions per minute, at which a pump delivers a flow: the inverse of `pumpFlow`.
 *
 * Whether the pump may run so fast, or so slowly, is in its data sheet. Safety: too fast for the oil, or for its
 * suction line, a pump starves; `suctionLimits` tells of the line.
 *
 * @param pump `mlPerMin` from 0 to 1e9, and what `pumpFlow` takes: 1e6 revolutions a minute at most
 * @throws as `pumpFlow`.
 *
 * @example
 * ```ts
 * import { pumpSpeed } from 'motescale/sampling';
 * pumpSpeed({ mlPerRevolution: 0.1, mlPerMin: 60, volumetricEfficiency: 0.8 }); // ~> 750
 * ```
 */
export function pumpSpeed(pump: Pump & { readonly mlPerMin: number }): number {
  const perRevolution = requirePump(pump, 'mlPerMin');
  const speed = requireMeasure(pump.mlPerMin, 'pump.mlPerMin', 0, 1e9, 'a flow in mL/min') / perRevolution;
  if (speed <= fastest) return speed;
  const expected = `a flow that takes no more than ${fastest} revolutions a minute`;
  throw motescaleError('out_of_range', 'pump.mlPerMin', pump.mlPerMin, expected);
}

/** What it delivers at each turn, mL. */
function requirePump(pump: Pump, given: string): number {
  const members = ['mlPerRevolution', 'volumetricEfficiency', given];
  requireObject(pump, 'pump', 'a pump { mlPerRevolution, volumetricEfficiency }', members);
  const { mlPerRevolution, volumetricEfficiency: share } = pump;
  const displaced = requireMeasure(mlPerRevolution, 'pump.mlPerRevolution', 1e-6, 1e6, 'a displacement in mL');
  return displaced * requireMeasure(share, 'pump.volumetricEfficiency', 0.01, 1, 'a share, 0.92 for 92 %');
}

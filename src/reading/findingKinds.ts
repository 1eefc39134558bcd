/**
 * The findings there are, and which figures each touches. Trust belongs to a figure: a counter without flow does not
 * silence a thermometer, and little flow must still be able to raise the alarm on little flow.
 */
import { figureNames } from './rules.ts';

type FigureName = (typeof figureNames)[number];

/** Every code of a finding. They are told in the order of the checks: findAll.ts. */
export const findingCodes = [
  'no_flow',
  'flow_low',
  'flow_high',
  'pressure_low',
  'viscosity_high',
  'temperature_low',
  'temperature_high',
  'few_particles',
  'counts_rise_with_size',
  'above_coincidence_limit',
  'free_water_likely',
  'cooled_below_saturation',
  'flat_size_distribution',
  'values_stuck',
  'channels_stuck',
  'line_not_flushed',
  'clock_backwards',
  'flagged_by_instrument',
  'code_disagrees',
  'count_missing',
  'pressure_high',
  'flow_pulsating',
  'volume_disagrees',
  'channels_equal',
  'viscosity_off_line',
  'start_up',
  'standing_oil',
  'calibration_overdue',
  'clock_ahead',
  'code_unreadable',
  'code_rises_with_size',
  'no_particles',
  'channel_empty',
  'figure_implausible',
  'flow_unknown',
] as const;

type Code = (typeof findingCodes)[number];

const counts: readonly FigureName[] = ['counts'];
const ofTheOil: readonly FigureName[] = ['counts', 'celsius', 'mm2PerS', 'waterSaturation'];

/** What touches more than the counts, or other figures. */
const others: { readonly [Name in Code]?: readonly FigureName[] } = {
  // the oil in the sensor is not the oil of the machine: flow and pressure are, whatever oil it is
  line_not_flushed: ofTheOil,
  standing_oil: ofTheOil,
  // each figure is true, but nobody knows of when
  clock_backwards: figureNames,
  volume_disagrees: ['counts', 'mlPerMin'],
  viscosity_off_line: ['celsius', 'mm2PerS'],
  figure_implausible: ['kPa', 'celsius', 'mm2PerS'],
  // the figures are as true as before, and monitor and acceptance judge the clock themselves
  clock_ahead: [],
};

/**
 * What each finding touches. A sensor worked outside what it is made for says less of the particles; the figure that
 * shows it is as true as before. `values_stuck`, `flagged_by_instrument` and `figure_implausible` touch the figure they
 * are about. A list of its own each time: a caller may write into it.
 */
export function touchedBy(code: Code): readonly FigureName[] {
  return (others[code] ?? counts).slice();
}

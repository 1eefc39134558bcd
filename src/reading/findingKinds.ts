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
] as const;

const counts: readonly FigureName[] = ['counts'];

/**
 * What each finding touches. A sensor worked outside what it is made for says less of the particles; the figure that
 * shows it is as true as before. `values_stuck` and `flagged_by_instrument` touch the figure they are about.
 */
export const affected: Readonly<Record<(typeof findingCodes)[number], readonly FigureName[]>> = {
  no_flow: counts,
  flow_low: counts,
  flow_high: counts,
  pressure_low: counts,
  viscosity_high: counts,
  temperature_low: counts,
  temperature_high: counts,
  few_particles: counts,
  counts_rise_with_size: counts,
  above_coincidence_limit: counts,
  free_water_likely: counts,
  cooled_below_saturation: counts,
  flat_size_distribution: counts,
  values_stuck: counts,
  channels_stuck: counts,
  // the oil in the sensor is not the oil of the machine: flow and pressure are, whatever oil it is
  line_not_flushed: ['counts', 'celsius', 'mm2PerS', 'waterSaturation'],
  // each figure is true, but nobody knows of when
  clock_backwards: figureNames,
  flagged_by_instrument: counts,
  code_disagrees: counts,
  count_missing: counts,
  pressure_high: counts,
  flow_pulsating: counts,
  volume_disagrees: ['counts', 'mlPerMin'],
  channels_equal: counts,
  viscosity_off_line: ['celsius', 'mm2PerS'],
  start_up: counts,
  standing_oil: ['counts', 'celsius', 'mm2PerS', 'waterSaturation'],
  calibration_overdue: counts,
  // the figures are as true as before, and monitor and acceptance judge the clock themselves
  clock_ahead: [],
  code_unreadable: counts,
  code_rises_with_size: counts,
  no_particles: counts,
  channel_empty: counts,
};

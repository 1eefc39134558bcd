/**
 * What findings say to a person, as a table of data: templates with named places. English is here; another language is
 * another object of the same type.
 *
 * Places: `{value}` and `{limit}` in the unit of the reading; `{valuePercent}` and `{limitPercent}` as percent;
 * `{valueDays}` and `{limitDays}`, `{valueSeconds}` and `{limitSeconds}` from ms; `{secondsBefore}` from value to
 * limit, in s; `{mostSeconds}`, at most so long ago; `{sizes}`, `{firstSize}` and `{lastSize}` with their unit;
 * `{figure}`, the first figure touched; `{received}`, the code as it came.
 */
import type { Sizing } from '../counts/types.ts';
import type { FigureName, FindingCode } from './reading.ts';

/** The words of findings in one language. */
export interface FindingTexts {
  /** Between whole and parts: `.` in English. */
  readonly decimalSign: string;
  /** Before the last of several. */
  readonly and: string;
  readonly sizeUnits: Readonly<Record<Sizing, string>>;
  readonly figures: Readonly<Record<FigureName, string>>;
  readonly findings: Readonly<Record<FindingCode, string>>;
  /** In place of these: of a code without counts. */
  readonly ofCodes: Readonly<Record<FindingOfCode, string>>;
  /** And of a figure that lies between two. */
  readonly between: Readonly<Record<'start_up', string>>;
}

/** What a code without counts can show of itself, as counts do. */
export type FindingOfCode = 'few_particles' | 'above_coincidence_limit' | 'flat_size_distribution';

/** English. */
export const englishFindingTexts: FindingTexts = {
  decimalSign: '.',
  and: ' and ',
  sizeUnits: { iso11171: 'µm(c)', iso11171b: 'µm(b)', iso4402: 'µm', microscope: 'µm' },
  figures: {
    counts: 'counts',
    mlPerMin: 'flow',
    kPa: 'pressure',
    celsius: 'temperature',
    mm2PerS: 'viscosity',
    waterSaturation: 'water',
  },
  findings: {
    no_flow:
      'No oil flows through the sensor, or no more than a flow meter shows at standstill: the counts say nothing ' +
      'about the oil. First stop the pump, lock it out, and release all pressure, including accumulators. Then look ' +
      'for what shuts the line off.',
    flow_low:
      'Flow is {value} mL/min, below {limit}. Cold oil flows slower: stop a sample pump until it is warmer, unless ' +
      'its inlet takes oil so thick. Only where inlet limit and relief valve allow it, set a pump faster or a flow ' +
      'valve wider. If that does not help, or a restrictor sets ' +
      'the flow, stop the pump, lock it out, and release all pressure, including accumulators; then look for what ' +
      'holds the oil back.',
    flow_high:
      'Flow is {value} mL/min, above {limit}. A pump can be set slower, a flow valve narrower. Where a restrictor ' +
      'sets the flow, first stop the pump, lock it out, and release all pressure, including accumulators; then fit a ' +
      'narrower one where the line leaves the pressure line. Never throttle a pump that has no relief valve.',
    pressure_low:
      'Pressure in the sensor is {value} kPa, below {limit}: bubbles in the oil may stay and count as particles. ' +
      'The line behind the sensor may leak or be off: look for oil on the floor, from a distance. Thin oil makes ' +
      'less pressure. Air gets in by a leak in the suction line or from foam in the tank. Before the line is ' +
      'touched, stop the pump, lock it out, and release all pressure, including accumulators.',
    viscosity_high:
      'Viscosity, measured or by the temperature, is {value} mm²/s, above {limit}: wait until the oil is warmer. ' +
      'Stop a sample pump meanwhile, unless its inlet takes oil so thick.',
    temperature_low:
      'Oil is at {value} °C, below the {limit} °C the sensor is made for: wait until the oil is warmer. Stop a ' +
      'sample pump meanwhile, unless its inlet takes oil so thick.',
    temperature_high:
      'Oil is at {value} °C, above the {limit} °C the sensor is made for. Stop the pump of the sampling line if it ' +
      'has one of its own, or shut a rated valve where the line leaves the machine. Where there is neither, take the ' +
      'machine down by its own procedure: stopping its pump alone may stop the cooling or drop a load. Do not touch ' +
      'the line while it is hot. Release all pressure, and let the oil cool. A wrong thermometer looks the same: ' +
      'compare it with a second one.',
    few_particles:
      'At {sizes} fewer than {limit} particles were counted ({value} at {lastSize}): count longer, or mark the ' +
      'scale number with >=.',
    counts_rise_with_size:
      '{value} particles per mL of {lastSize} and larger, but only {limit} of {firstSize} and larger, which include ' +
      'them: a channel of the counter is wrong.',
    above_coincidence_limit:
      'The counter saw {value} particles per mL, above its coincidence limit of {limit}: the oil is at least this ' +
      'dirty, and the sizes are not right. Dilute a bottle sample; on line use a sensor with a higher limit: a ' +
      'smaller flow does not make the oil cleaner. Counts that fall from here although nobody cleaned the oil may ' +
      'be those of a counter that sees nothing for all the droplets or dirt.',
    free_water_likely:
      'The oil is {valuePercent} % saturated with water (limit {limitPercent} %): droplets are likely counted as ' +
      'particles; dry the oil.',
    cooled_below_saturation:
      'The oil was as cold as {value} °C, below the {limit} °C at which it is saturated with the water it holds: ' +
      'droplets may be left and count as particles; let it run warm and count again.',
    flat_size_distribution:
      'From {firstSize} to {lastSize} the counts fall with a slope of {value}; fine dirt falls with {limit} or ' +
      'more. It may be air bubbles, water droplets or coarse wear, which the counts do not tell apart: look at a ' +
      'sample, for foam in the tank, and at the water.',
    values_stuck:
      'The last {value} readings have the same {figure} to the last digit; {limit} would hardly come by chance: the ' +
      'sensor or its connection has stopped.',
    channels_stuck:
      'The last {value} readings have the same counts at {sizes} while others move; {limit} would hardly come by ' +
      'chance: a channel of the counter has stopped.',
    line_not_flushed: '{value} mL have passed the line, fewer than {limit}: it still holds old oil; let it run longer.',
    clock_backwards:
      'This reading is {secondsBefore} s older than one before it: set the clock of the instrument; rates and ' +
      'trends across this moment mean nothing.',
    flagged_by_instrument:
      'The instrument marks its {figure} as not to be relied on, or sends what cannot be read: see its own messages.',
    code_disagrees:
      'The code that came with the counts is {value} classes off the code of the counts, which decide: compare ' +
      'sizes, calibration and edition of the standard in the instrument.',
    pressure_high:
      'Pressure in the sensor is {value} kPa, above the {limit} it can take. Take the machine down by its own ' +
      'procedure, lock it out, and release all pressure, including accumulators. Then fit a relief valve at the ' +
      'sensor with a free path to the tank, or a sensor rated for the line. A restrictor alone protects nothing: ' +
      'where no oil flows, it takes no pressure off.',
    flow_pulsating:
      'The flow swings by {valuePercent} % from reading to reading (limit {limitPercent} %): the volume counted is ' +
      'not known. Look for air in the suction line, a worn pump or a valve that hunts. Before the line is touched, ' +
      'stop the pump, lock it out, and release all pressure, including accumulators.',
    volume_disagrees:
      'The counter says it counted {value} mL; flow and time give {limit} mL: one of flow, time and volume is ' +
      'wrong. To compare them with a measuring glass, first stop the pump, lock it out, and release all pressure, ' +
      'including accumulators. Lead the low-pressure return of the line into the glass, never the pressure side, ' +
      'and fasten its end. Only then let it run, eyes and skin protected.',
    channels_equal:
      'At {firstSize} and {lastSize} the same {value} particles per mL were counted; some {limit} particles should ' +
      'lie between them: a channel of the counter is wrong.',
    viscosity_off_line:
      'Viscosity is {value} mm²/s, but the oil has {limit} at this temperature. A wrong thermometer, a wrong ' +
      'viscometer and another fluid all look like this. First compare the temperature with a second thermometer. If ' +
      'it is right, take a sample at a low-pressure sampling valve and have its viscosity measured in a laboratory. ' +
      'If that is as the oil should have, the viscometer is wrong; if not, another fluid is in the machine, or the ' +
      'oil has changed.',
    start_up:
      'The flow began {valueSeconds} s ago or earlier, when is not known; the oil settles after {limitSeconds} s: ' +
      'wait, and count again.',
    standing_oil:
      'Since flow was first told about {value} mL have passed, fewer than the {limit} the line holds: oil that stood ' +
      'in the line may be counted; let it run longer.',
    calibration_overdue: 'The counter was calibrated {valueDays} days ago, more than {limitDays}: have it calibrated.',
    clock_ahead:
      'The reading is {valueSeconds} s ahead of the clock of the host (limit {limitSeconds} s): set the clock of ' +
      'the instrument.',
    count_missing: 'No count that can be read came at {sizes}: see what the instrument sends there.',
    code_unreadable:
      'What came as a code, {received}, cannot be read as one of its table: see the messages of the instrument, and ' +
      'how it writes its code.',
    code_rises_with_size:
      'The code says more than {value} particles per mL of {lastSize} and larger, and at most {limit} of {firstSize} ' +
      'and larger, which include them: a channel of the counter is wrong, or the code came in another order.',
    channel_empty:
      'No particle of {firstSize} and larger was counted, where at least {limit} were to be expected: a channel of ' +
      'the counter has failed.',
    no_particles:
      'In {value} mL of oil no particle was counted, or hardly any, where this unit usually has some {limit}: the ' +
      'counter or its light has failed, or no oil reaches it. First stop the pump, lock it out, and release all ' +
      'pressure, including accumulators. Then look at the counter and its line.',
    figure_implausible:
      'The {figure} reads {value}, beyond the {limit} that an oil can have: the sensor, its cable or its scaling is ' +
      'wrong, or the figure came in another unit. Until a second instrument says otherwise take the oil for hot and ' +
      'under pressure. Before the line is touched, stop the pump, lock it out, and release all pressure, including ' +
      'accumulators. Then look at the sensor and its cable.',
    flow_unknown:
      'A flow came that cannot be relied on: nobody knows whether oil flowed through the sensor, and the counts may ' +
      'be of oil that stood. See what the flow meter sends.',
  },
  ofCodes: {
    few_particles: 'The code {received} says that fewer than {limit} particles were counted at {sizes}: count longer.',
    above_coincidence_limit:
      'The code {received} says that there were more particles at {sizes} than the counter can tell apart: the oil ' +
      'is at least this dirty, and the numbers are not right. Dilute a bottle sample; on line use a sensor with a ' +
      'higher limit: a smaller flow does not make the oil cleaner.',
    flat_size_distribution:
      'By the code {received} the counts fall from {firstSize} to {lastSize} with a slope of {value} at most; fine ' +
      'dirt falls with {limit} or more. It may be air bubbles, water droplets or coarse wear: look at a sample, for ' +
      'foam in the tank, and at the water.',
  },
  between: {
    start_up:
      'The flow began since it last stood, between {valueSeconds} s and {mostSeconds} s ago; the oil settles after ' +
      '{limitSeconds} s: wait, and count again.',
  },
};

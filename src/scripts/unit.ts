/**
 * The script for a machine watched: readings, alarms, the monitor and the record. It holds the tables of ISO 4406;
 * another comes as a script of its own. Figures are not followed: see standIns.ts.
 */
export { advanceAlarm, alarmStateName, prepareAlarm, resumeAlarm, startAlarm } from '../alarm/index.ts';
export { classify, formatCode, iso4406, iso4406Microscope, meets, parseCode } from '../codes/index.ts';
export { cumulativeCounts } from '../counts/cumulativeCounts.ts';
export {
  advanceMonitor,
  advanceUnit,
  alarmSummary,
  isMotescaleError,
  prepareMonitor,
  problemsOf,
  resumeMonitor,
  startMonitor,
  startUnit,
  version,
} from '../monitor/index.ts';
export { assessReading, worstQuality } from '../reading/index.ts';

/** A monitor as most tests call it: by its configuration, prepared once. */
import { standardTables } from '../../src/codes/index.ts';
import * as monitor from '../../src/monitor/index.ts';

const known = new WeakMap<object, monitor.PreparedMonitor>();

export function prepared(config: monitor.MonitorConfig): monitor.PreparedMonitor {
  const made = known.get(config) ?? monitor.prepareMonitor(config, { tables: standardTables });
  known.set(config, made);
  return made;
}

export const startMonitor = (config: monitor.MonitorConfig): monitor.MonitorState =>
  monitor.startMonitor(prepared(config));

export const advanceMonitor = (
  config: monitor.MonitorConfig,
  state: monitor.MonitorState,
  input: monitor.MonitorInput,
): ReturnType<typeof monitor.advanceMonitor> => monitor.advanceMonitor(prepared(config), state, input);

export const resumeMonitor = (config: monitor.MonitorConfig, state: unknown): monitor.ResumedMonitor =>
  monitor.resumeMonitor(prepared(config), state);

export const stateBytes = (config: monitor.MonitorConfig): number => prepared(config).stateBytes;

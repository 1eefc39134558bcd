/** A state while it is being worked on. */
import type { Writable } from '../state/writable.ts';
import type { MonitorState } from './types.ts';

export type Draft = Writable<MonitorState>;

/** The word of an event tells the compiler which members are there: `npm run typecheck` fails where it does not. */
import { expect, test } from 'vitest';
import { advanceMonitor, type MonitorEvent, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';

/** Nothing here asks whether a member is there. */
function told(event: MonitorEvent): string {
  switch (event.event) {
    case 'raised':
    case 're_alarmed': {
      const setpoint: number | string = event.setpoint;
      return `${event.alarm} ${setpoint} ${event.priority.toUpperCase()}`;
    }
    case 'shelved':
      return event.until.toFixed();
    case 'refused':
      return event.reason.toUpperCase();
    case 'quality_bad':
      return event.figure.toUpperCase();
    default:
      return event.event;
  }
}

test('and it is so', () => {
  const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, priority: 'high' } as const;
  const monitor = prepareMonitor({ codes: [], alarms: [hot] });
  let state = startMonitor(monitor);
  const all: string[] = [];
  for (const input of [
    { time: 0, celsius: 70 },
    { kind: 'command', time: 1, alarm: 'hot', command: 'unshelve' },
    { kind: 'command', time: 2, alarm: 'hot', command: 'shelve', forMs: 1000 },
  ] as const) {
    const step = advanceMonitor(monitor, state, input);
    state = step.state;
    all.push(...step.events.map(told));
  }
  expect(all).toEqual(['hot 65 HIGH', 'NOT_SHELVED', '1002']);
});

/** The scripts of the package, loaded as a page would, and a machine watched with one of them. */
import { readFileSync } from 'node:fs';
import { runInThisContext } from 'node:vm';

export const scripts = ['motescale.global.js', 'motescale.codes.global.js', 'motescale.unit.global.js'] as const;

/** What a script's global holds. Any: the scripts hold different parts. */
// biome-ignore lint/suspicious/noExplicitAny: each test calls what its script holds
export type Members = Record<string, any>;

export function loadScript(path: string, global = 'motescale'): Members {
  return runInThisContext(`(function () {\n${readFileSync(path, 'utf8')}\nreturn ${global};\n})()`);
}

/** Two hundred readings of an invented unit that gets dirtier and hotter, with a restart in between. */
export const unitRunText = `function (motescale) {
  var prepared = motescale.prepareMonitor({
    codes: [{ table: motescale.iso4406, target: '18/16/13' }],
    alarms: [
      { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, deadband: 3 },
      { id: 'dirt', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14' }
    ]
  });
  var record = motescale.startUnit(prepared, { unit: 'lower gate' });
  var events = [];
  for (var i = 0; i < 200; i += 1) {
    var jump = (i * 7919) % 83;
    var counts = motescale.cumulativeCounts({ 4: 900 + 40 * i + jump, 6: 300 + 12 * i + jump, 14: 20 + i });
    var payload = { time: i * 300000, counts: counts, celsius: 40 + (i * 31) % 37 };
    var step = motescale.advanceUnit(prepared, record, { seq: i + 1, payload: payload });
    record = JSON.parse(JSON.stringify(step.record));
    events = events.concat(step.events);
  }
  return { record: record, events: events };
}`;

/** In the realm of the tests, so that records compare. */
export function unitRun(motescale: Members): { record: unknown; events: readonly unknown[] } {
  return runInThisContext(`(${unitRunText})`)(motescale);
}

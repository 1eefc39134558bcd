// What happened, in words: events of the monitor, bad readings, and the work that was done.
export const dateOf = (time) => new Date(time).toISOString().slice(0, 10);
export const momentOf = (time) => new Date(time).toISOString().slice(0, 16).replace('T', ' ');

/** Events with their times, in order; what was done to the unit stands among them. */
export function happenings({ unit, events }) {
  const told = events.map((event) => ({ time: event.time, text: textOf(event, unit) }));
  return [...told, ...(unit.work ?? [])].sort((a, b) => a.time - b.time);
}

function textOf(event, { alarm }) {
  switch (event.event) {
    case 'raised':
      return `ALARM ${event.alarm}: ${beyond(event, alarm)}`;
    case 'returned':
      return `${event.alarm} alarm returned to normal`;
    case 'change_found': {
      const [before, after, unit] = levels(event);
      const since = event.since === null ? 'slowly, beginning unknown' : `since ${dateOf(event.since)}`;
      return `change found: ${event.followed} ${event.direction} from ${before} to ${after}${unit}, ${since}`;
    }
    case 'bad_readings':
      return `${event.number} bad readings (${event.finding.replaceAll('_', ' ')}) until ${momentOf(event.until)}`;
    case 'readings_stale':
      return 'no usable reading for an hour';
    case 'readings_restored':
      return 'usable readings again';
    case 'signal_stale':
      return `${event.alarm} alarm: no usable reading`;
    case 'signal_restored':
      return `${event.alarm} alarm: usable readings again`;
    case 'target_stale':
      return `${event.figure}: no reading tells whether the target is met`;
    case 'target_restored':
      return `${event.figure}: readings tell again whether the target is met`;
    case 'quality_bad':
      return `${event.figure} cannot be relied on${reasons(event.findings)}`;
    case 'quality_restored':
      return `${event.figure} can be relied on again`;
    default:
      return event.event.replaceAll('_', ' ');
  }
}

function beyond({ alarm: id, value }, setpoint) {
  if (id === 'water') return `${Math.round(value * 100)} % saturated for an hour`;
  if (id === 'dirt rises') return `6 µm(c) up by ${value.toFixed(1)} scale numbers within a day`;
  return `${value} ${value === 1 ? 'class' : 'classes'} above ${setpoint} for half an hour`;
}

function levels({ followed, before, after }) {
  return followed === 'water'
    ? [before.toFixed(0), after.toFixed(0), ' mg/kg']
    : [before.toFixed(1), after.toFixed(1), ' (scale number)'];
}

function reasons(findings = []) {
  return findings.length ? ` (${findings.join(', ').replaceAll('_', ' ')})` : '';
}

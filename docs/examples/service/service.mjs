// A service in forty lines. Numbered inputs of units come as often as they like; each counts once, and each of its
// events is told.
import { advanceUnit, prepareMonitor, standardTables, startUnit } from 'motescale';

/**
 * `store`: where records are kept (files.mjs, sqlite.mjs). `tell`: hands one event on; whoever gets it drops an id it
 * has had. `configurations`: by name, each that a unit here may have; a change of one gets another name. `first`: that
 * of a new unit.
 */
export function startService({ store, tell, configurations, first }) {
  const known = new Map();
  const lookedAt = new Set();
  for (const [name, config] of Object.entries(configurations))
    known.set(name, prepareMonitor(config, { tables: standardTables, configuration: name }));

  /** Tells what was kept and not yet told. A service killed in between tells it once more, with the same ids. */
  function settle(unit, untold) {
    if (untold.length === 0) return;
    for (const event of untold) tell(event);
    store.told(unit);
  }

  /**
   * What was prepared of the configuration that holds for an input: that of the record, or the one that the input
   * brings.
   */
  function inForce(record, seq, payload) {
    const brought = seq === record.seq + 1 && payload?.kind === 'configuration' ? payload.configuration : undefined;
    return known.get(brought) ?? known.get(record.configuration);
  }

  for (const unit of store.waiting()) settle(unit, store.load(unit).untold);

  return {
    /**
     * Takes one delivery. The queue may forget it when this returns, unless the outcome is `gap`: then `missing` has to
     * come first.
     */
    take({ unit, seq, payload }) {
      const begun = () => ({ record: startUnit(known.get(first), { unit, configuration: first }), untold: [] });
      const { record: kept, untold } = store.load(unit) ?? begun();
      settle(unit, untold);
      // at the first input after a start the state is looked at whole, as one of an earlier version is
      const record = lookedAt.has(unit) ? kept : { ...kept, library: 'earlier' };
      const step = advanceUnit(inForce(record, seq, payload), record, { seq, payload });
      if (step.record !== record) {
        store.keep(unit, step.record, step.events);
        settle(unit, step.events);
        lookedAt.add(unit);
      }
      return step;
    },
  };
}

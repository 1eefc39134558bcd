// Records in SQLite: a record and its events in one transaction. `db` has `exec`, and `prepare` gives `run`, `get` and
// `all`, as node:sqlite (Node 22 and later, Deno) and other drivers have them.
const schema = `
  create table if not exists unit (unit text primary key, record text not null);
  create table if not exists event (
    id text primary key, unit text not null, body text not null, told integer not null)`;

/** `warn`: told at the start of each unit whose row is damaged. */
export function sqliteStore(db, warn = console.error) {
  db.exec(schema);
  const find = db.prepare('select record from unit where unit = ?');
  const put = db.prepare(
    'insert into unit (unit, record) values (?, ?) on conflict (unit) do update set record = excluded.record',
  );
  const add = db.prepare('insert into event (id, unit, body, told) values (?, ?, ?, 0)');
  const untold = db.prepare('select body from event where unit = ? and told = 0 order by rowid');
  const mark = db.prepare('update event set told = 1 where unit = ? and told = 0');
  const units = db.prepare('select unit from unit');

  /** What is kept of a unit, null where nothing is; or `damage`, in words. */
  function read(unit) {
    const row = find.get(unit);
    if (row === undefined) return { kept: null };
    const bodies = untold.all(unit);
    try {
      const record = JSON.parse(row.record);
      if (record?.unit === unit) return { kept: { record, untold: bodies.map(({ body }) => JSON.parse(body)) } };
    } catch {
      // no JSON
    }
    return { kept: null, damage: `the record of ${unit} is damaged` };
  }

  function load(unit) {
    const { kept, damage } = read(unit);
    if (damage) throw new Error(damage);
    return kept;
  }

  /** Whether events wait; a damaged row stops its own unit only, when an input of it comes. */
  function hasUntold(unit) {
    const { kept, damage } = read(unit);
    if (damage) warn(damage);
    return kept !== null && kept.untold.length > 0;
  }

  return {
    load,
    keep(unit, record, events) {
      db.exec('begin immediate');
      try {
        put.run(unit, JSON.stringify(record));
        for (const event of events) add.run(event.id, unit, JSON.stringify(event));
        db.exec('commit');
      } catch (error) {
        db.exec('rollback');
        throw error;
      }
    },
    told: (unit) => mark.run(unit),
    waiting: () =>
      units
        .all()
        .map(({ unit }) => unit)
        .filter(hasUntold),
  };
}

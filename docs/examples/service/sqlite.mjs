// Records in SQLite: a record and its events in one transaction. `db` has `exec`, and `prepare` gives `run`, `get` and
// `all`, as node:sqlite (Node 22 and later, Deno) and other drivers have them.
const schema = `
  create table if not exists unit (unit text primary key, record text not null);
  create table if not exists event (
    id text primary key, unit text not null, body text not null, told integer not null)`;

export function sqliteStore(db) {
  db.exec(schema);
  const find = db.prepare('select record from unit where unit = ?');
  const put = db.prepare(
    'insert into unit (unit, record) values (?, ?) on conflict (unit) do update set record = excluded.record',
  );
  const add = db.prepare('insert into event (id, unit, body, told) values (?, ?, ?, 0)');
  const untold = db.prepare('select body from event where unit = ? and told = 0 order by rowid');
  const mark = db.prepare('update event set told = 1 where unit = ? and told = 0');
  const waiting = db.prepare('select distinct unit from event where told = 0');

  return {
    load(unit) {
      const row = find.get(unit);
      if (row === undefined) return null;
      return { record: JSON.parse(row.record), untold: untold.all(unit).map(({ body }) => JSON.parse(body)) };
    },
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
    waiting: () => waiting.all().map(({ unit }) => unit),
  };
}

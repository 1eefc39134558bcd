// The four functions on PostgreSQL. A worker holds one part of the units for one transaction, by a lock that ends with
// it. So there is no lease to renew or to lose: whoever dies, or sleeps longer than an idle transaction may, has lost
// the lock and the transaction both.
import pg from 'pg';
import { partOf, parts } from './parts.mjs';

const batchSize = 400;
/** Longer than a batch takes: a worker that says nothing for so long is cut off, and its part is free. */
export const holdMs = 8000;
/** Any number of your own, so that other locks in the database are not ours. */
const lockSpace = 4406;

export function postgresEngine(connection) {
  let client = null;
  let part = Math.floor(Math.random() * parts);

  async function open() {
    if (client !== null) return client;
    const opened = new pg.Client(connection);
    opened.on('error', () => {
      if (client === opened) client = null;
    });
    await opened.connect();
    await opened.query(`set idle_in_transaction_session_timeout = ${holdMs}`);
    client = opened;
    return opened;
  }

  function ask(text, values) {
    if (client === null) throw new Error('the connection is gone');
    return client.query(text, values);
  }

  /** Tries the parts in turn, each time from the next one on, so that none is forgotten. */
  async function take() {
    const db = await open();
    for (let tried = 0; tried < parts; tried += 1) {
      part = (part + 1) % parts;
      await db.query('begin');
      const lock = 'select pg_try_advisory_xact_lock($1, $2) as held';
      if ((await db.query(lock, [lockSpace, part])).rows[0].held) {
        const waiting = 'select unit, seq, payload from inbox where part = $1 order by place limit $2';
        const { rows } = await db.query(waiting, [part, batchSize]);
        if (rows.length > 0)
          return { part, inputs: rows.map(({ unit, seq, payload }) => ({ unit, seq: Number(seq), text: payload })) };
      }
      await db.query('rollback');
    }
    return null;
  }

  async function load(_batch, units) {
    const { rows } = await ask('select unit, kept from unit where unit = any($1)', [units]);
    return new Map(rows.map(({ unit, kept }) => [unit, JSON.parse(kept)]));
  }

  async function store({ inputs }, steps) {
    const events = steps.flatMap(({ unit, events: own }) => own.map((event) => ({ unit, event })));
    const buckets = steps.flatMap(({ unit, buckets: own }) => own.map((bucket) => ({ unit, bucket })));
    const place = ({ event: { id } }) => id.split('.').slice(-2).map(Number);
    const column = (rows, of) => rows.map(of);
    await ask('insert into event select * from unnest($1::text[], $2::bigint[], $3::int[], $4::text[], $5::text[])', [
      column(events, ({ unit }) => unit),
      column(events, (one) => place(one)[0]),
      column(events, (one) => place(one)[1]),
      column(events, ({ event }) => event.id),
      column(events, ({ event }) => JSON.stringify(event)),
    ]);
    await ask('insert into bucket select * from unnest($1::text[], $2::bigint[], $3::text[])', [
      column(buckets, ({ unit }) => unit),
      column(buckets, ({ bucket }) => bucket.start),
      column(buckets, ({ bucket }) => JSON.stringify(bucket)),
    ]);
    const put =
      'insert into unit select * from unnest($1::text[], $2::text[]) ' +
      'on conflict (unit) do update set kept = excluded.kept';
    await ask(put, [column(steps, ({ unit }) => unit), column(steps, ({ kept }) => JSON.stringify(kept))]);
    await ask(
      'delete from inbox using unnest($1::text[], $2::bigint[]) as done (unit, seq) ' +
        'where inbox.unit = done.unit and inbox.seq = done.seq',
      [column(inputs, ({ unit }) => unit), column(inputs, ({ seq }) => seq)],
    );
    await ask('commit');
  }

  /** The connection goes, and with it the transaction and the lock. */
  async function letGo() {
    const closing = client;
    client = null;
    await closing?.end();
  }

  return { take, load, store, letGo, close: letGo };
}

/** Publishes inputs `{ unit, seq, text }`: when this returns they are on the disk. Twice is as good as once. */
export async function publish(db, inputs) {
  const text =
    'insert into inbox (part, unit, seq, payload) ' +
    'select * from unnest($1::int[], $2::text[], $3::bigint[], $4::text[]) on conflict do nothing';
  await db.query(text, [
    inputs.map(({ unit }) => partOf(unit)),
    inputs.map(({ unit }) => unit),
    inputs.map(({ seq }) => seq),
    inputs.map(({ text: payload }) => payload),
  ]);
}

// A PostgreSQL for the trial: unprivileged, on a socket, in a folder of its own. Not how one for use is set up.
import { execFileSync } from 'node:child_process';
import { chownSync, existsSync, readdirSync, readFileSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { holdMs, postgresEngine, publish } from './postgres.mjs';

const versions = '/usr/lib/postgresql';
const port = 25432;
/** The user who may do least, on Debian and others. */
const nobody = 65534;

export async function postgres(folder) {
  const newest = existsSync(versions) ? readdirSync(versions).sort((a, b) => b - a)[0] : undefined;
  const bin = `${versions}/${newest}/bin`;
  if (!existsSync(`${bin}/initdb`))
    throw new Error('PostgreSQL is not installed here: apt-get install -y postgresql-15');
  const data = `${folder}/data`;
  const connection = { host: folder, port, user: 'fleet', database: 'postgres' };

  // PostgreSQL refuses to run as root
  const asNobody = process.getuid() === 0 ? { uid: nobody, gid: nobody } : {};
  if (process.getuid() === 0) chownSync(folder, nobody, nobody);
  const run = (name, ...args) =>
    execFileSync(`${bin}/${name}`, args, { stdio: ['ignore', 'ignore', 'pipe'], cwd: folder, ...asNobody });
  const settings = `-c listen_addresses='' -c unix_socket_directories=${folder} -c port=${port}`;
  const start = () => run('pg_ctl', '-D', data, '-w', '-l', `${folder}/log`, '-o', settings, 'start');
  run('initdb', '-D', data, '-U', 'fleet', '-A', 'trust', '--no-sync');
  const leader = () => Number(readFileSync(`${data}/postmaster.pid`, 'utf8').split('\n')[0]);
  process.on('exit', () => existsSync(`${data}/postmaster.pid`) && process.kill(leader(), 'SIGQUIT'));
  start();

  const client = async () => {
    const db = new pg.Client(connection);
    db.on('error', () => {});
    await db.connect();
    return db;
  };
  const asked = async (ask) => {
    const db = await client();
    try {
      return await ask(db);
    } finally {
      await db.end().catch(() => {});
    }
  };
  const rows = (text) => asked(async (db) => (await db.query(text)).rows);
  const schema = readFileSync(new URL('schema.sql', import.meta.url), 'utf8');
  await asked((db) => db.query(schema));
  const [{ begins }] = await rows('select pg_current_wal_lsn() as begins');
  let publisher = null;

  return {
    connection,
    holdMs,
    pids: () => [leader()],
    /** All or nothing: gives those that are not on the disk for sure. */
    async publish(inputs) {
      try {
        publisher ??= await client();
        await publish(publisher, inputs);
        return [];
      } catch {
        publisher = null;
        return inputs;
      }
    },
    /** Puts a record there before anything has come. */
    begin: (all) =>
      asked((db) =>
        db.query('insert into unit select * from unnest($1::text[], $2::text[])', [
          all.map(({ unit }) => unit),
          all.map(({ kept }) => JSON.stringify(kept)),
        ]),
      ),
    left: async () => Number((await rows('select count(*) as n from inbox'))[0].n),
    /** Kills the process that all others hang on, and starts it again. */
    async killLeader() {
      process.kill(leader(), 'SIGKILL');
      for (let tries = 1; ; tries += 1) {
        await sleep(500);
        try {
          start();
          return;
        } catch (error) {
          if (tries === 40) throw error;
        }
      }
    },
    copy: () => rows('create table unit_before as table unit'),
    goBack: () => asked((db) => db.query(readFileSync(new URL('goBack.sql', import.meta.url), 'utf8'))),
    async readAll() {
      const kept = await rows('select unit, kept from unit');
      const events = await rows('select unit, body from event order by unit, seq, n');
      const buckets = await rows('select unit, body from bucket order by unit, start');
      const parsed = ({ unit, body }) => ({ unit, body: JSON.parse(body) });
      return {
        kept: new Map(kept.map((row) => [row.unit, JSON.parse(row.kept)])),
        events: events.map(parsed),
        buckets: buckets.map(parsed),
      };
    },
    size: async () => {
      const [row] = await rows(
        "select pg_total_relation_size('unit') as unit, pg_total_relation_size('event') as event, " +
          `pg_total_relation_size('bucket') as bucket, pg_wal_lsn_diff(pg_current_wal_lsn(), '${begins}') as log`,
      );
      return (
        `bytes on disk: records ${row.unit}, events ${row.event}, buckets ${row.bucket}; written to its log ` +
        `${row.log}`
      );
    },
  };
}

/** What a worker of the trial works with. */
export const workOn = (connection) => postgresEngine(connection);

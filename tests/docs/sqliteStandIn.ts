/**
 * A database in memory that answers the statements of docs/examples/service/sqlite.mjs as SQLite does: primary keys are
 * kept, a transaction takes effect as a whole at its commit, and one that was never committed is gone when the database
 * is opened again. Any other statement is an error.
 */

/** The end of a process. */
export class Killed extends Error {}

interface Event {
  readonly id: string;
  readonly unit: string;
  readonly body: string;
  told: number;
}
interface Tables {
  unit: Map<string, string>;
  event: Event[];
}
type Row = Record<string, unknown> | undefined;
interface Statement {
  run(...args: string[]): void;
  get(...args: string[]): Row;
  all(...args: string[]): Row[];
}
interface Connection {
  exec(sql: string): void;
  prepare(sql: string): Statement;
}
type Call = <T>(act: () => T) => T;

const copy = ({ unit, event }: Tables): Tables => ({ unit: new Map(unit), event: event.map((one) => ({ ...one })) });

/** What each statement does to the tables. */
const statements: Record<string, (tables: Tables, args: readonly string[]) => Row[]> = {
  'select record from unit where unit = ?': ({ unit }, [name]) =>
    unit.has(name as string) ? [{ record: unit.get(name as string) }] : [],
  'insert into unit (unit, record) values (?, ?) on conflict (unit) do update set record = excluded.record': (
    { unit },
    [name, record],
  ) => {
    unit.set(name as string, record as string);
    return [];
  },
  'insert into event (id, unit, body, told) values (?, ?, ?, 0)': ({ event }, [id, unit, body]) => {
    if (event.some((one) => one.id === id)) throw new Error('UNIQUE constraint failed: event.id');
    event.push({ id: id as string, unit: unit as string, body: body as string, told: 0 });
    return [];
  },
  'select body from event where unit = ? and told = 0 order by rowid': ({ event }, [name]) =>
    event.filter(({ unit, told }) => unit === name && told === 0).map(({ body }) => ({ body })),
  'update event set told = 1 where unit = ? and told = 0': ({ event }, [name]) => {
    for (const one of event) if (one.unit === name) one.told = 1;
    return [];
  },
  'select unit from unit': ({ unit }) => [...unit.keys()].map((name) => ({ unit: name })),
};

/** A database that outlives those who open it; each call of theirs goes through `call`. */
export function memorySqlite(): { open(call: Call): Connection } {
  let committed: Tables | null = null;
  return {
    open(call: Call): Connection {
      let open: Tables | null = null;
      const tables = () => {
        const now = open ?? committed;
        if (now === null) throw new Error('no such table');
        return now;
      };
      const exec = (sql: string) => {
        if (/create table/.test(sql)) committed ??= { unit: new Map(), event: [] };
        else if (sql === 'begin immediate' && open === null) open = copy(tables());
        else if (sql === 'commit' && open !== null) [committed, open] = [open, null];
        else if (sql === 'rollback' && open !== null) open = null;
        else throw new Error(`cannot ${sql}`);
      };
      return {
        exec: (sql: string): void => call(() => exec(sql)),
        prepare(sql: string): Statement {
          const statement = statements[sql];
          if (statement === undefined) throw new Error(`near ${sql}`);
          const rows = (args: readonly string[]) => call(() => statement(tables(), args));
          return {
            run: (...args: string[]): void => void rows(args),
            get: (...args: string[]): Row => rows(args)[0],
            all: (...args: string[]): Row[] => rows(args),
          };
        },
      };
    },
  };
}

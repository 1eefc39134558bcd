// A cluster of three NATS servers with JetStream for the trial, in a folder of its own. Not how one for use is set up.
import { execFileSync, spawn } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';
import { DeliverPolicy } from '@nats-io/jetstream';
import {
  bucketStream,
  duplicateMs,
  holdMs,
  inputStream,
  natsClient,
  natsEngine,
  openBucket,
  placeOf,
  publish,
  setUp,
  subjectOf,
  unitKey,
} from './nats.mjs';
import { partOf, parts } from './parts.mjs';

const nodes = [0, 1, 2];
const allParts = Array.from({ length: parts }, (_, part) => part);
const clientPort = (i) => 24222 + i;
const clusterPort = (i) => 26222 + i;

export async function nats(folder) {
  try {
    execFileSync('nats-server', ['--version'], { stdio: 'ignore' });
  } catch {
    throw new Error('NATS is not installed here: apt-get install -y nats-server');
  }
  const routes = nodes.map((i) => `nats://127.0.0.1:${clusterPort(i)}`).join();
  const servers = [];
  function start(i) {
    const own = [
      '-n',
      `n${i}`,
      '-a',
      '127.0.0.1',
      '-p',
      `${clientPort(i)}`,
      '-js',
      '-sd',
      `${folder}/n${i}`,
      '-l',
      `${folder}/n${i}.log`,
    ];
    const cluster = ['--cluster_name', 'fleet', '--cluster', `nats://127.0.0.1:${clusterPort(i)}`, '--routes', routes];
    servers[i] = spawn('nats-server', [...own, ...cluster], { stdio: 'ignore' });
  }
  for (const i of nodes) start(i);
  process.on('exit', () => {
    for (const server of servers) server.kill('SIGKILL');
  });
  const connection = nodes.map((i) => `127.0.0.1:${clientPort(i)}`);
  const opened = await natsClient(connection);
  for (let tries = 0; ; tries += 1) {
    try {
      await setUp(opened);
      break;
    } catch (error) {
      if (tries > 100) throw error;
      await sleep(200);
    }
  }
  const { jsm, js } = opened;
  const buckets = [];
  for (const part of allParts) buckets.push(await openBucket(opened, part));
  const lastOf = async (stream) => (await jsm.streams.info(stream)).state.last_seq;

  async function fetched(consumer, most) {
    const found = [];
    for await (const message of await consumer.fetch({ max_messages: Math.min(1000, most), expires: 5000 }))
      found.push(message);
    return found;
  }

  /** Every message of a stream, in order. */
  async function messages(stream) {
    const { messages: wanted } = (await jsm.streams.info(stream)).state;
    const found = [];
    if (wanted === 0) return found;
    const consumer = await js.consumers.get(stream, { deliver_policy: DeliverPolicy.All });
    while (found.length < wanted)
      for (const message of await fetched(consumer, wanted - found.length)) found.push(message.json());
    return found;
  }

  return {
    connection,
    holdMs,
    publish: (inputs) => publish(opened, inputs),
    duplicateMs,
    pids: () => servers.map(({ pid }) => pid),
    async begin(all) {
      for (const { unit, kept } of all)
        await buckets[partOf(unit)].put(unitKey(unit), JSON.stringify({ ...kept, outbox: [], upTo: 0 }));
    },
    async left() {
      let left = 0;
      for (const part of allParts) left += (await lastOf(inputStream(part))) - (await placeOf(buckets[part])).done;
      return left;
    },
    async killLeader() {
      const { leader } = (await jsm.streams.info(bucketStream(0))).cluster;
      const i = Number(leader.slice(1));
      servers[i].kill('SIGKILL');
      await sleep(1000);
      start(i);
    },
    /** Each key of each bucket, its place too. No worker runs meanwhile. */
    async copy() {
      const copy = [];
      for (const bucket of buckets)
        for await (const key of await bucket.keys()) copy.push({ bucket, key, text: (await bucket.get(key)).string() });
      return copy;
    },
    /** The keys as they were, and nothing told that was told since. No worker runs meanwhile. */
    async goBack(copy) {
      for (const bucket of buckets) for await (const key of await bucket.keys()) await bucket.purge(key);
      for (const { bucket, key, text } of copy) await bucket.put(key, text);
      const keptOf = new Map(copy.map(({ key, text }) => [key, JSON.parse(text)]));
      for (let seq = await lastOf('TOLD'); seq > 0; seq -= 1) {
        const message = await jsm.streams.getMessage('TOLD', { seq });
        if (message === null) continue;
        const { unit, event, bucket } = message.json();
        const { record, open = [] } = keptOf.get(unitKey(unit)) ?? {};
        const isSince =
          event === undefined
            ? bucket.start >= (open[0]?.start ?? 0)
            : Number(event.id.split('.').at(-2)) > (record?.seq ?? 0);
        if (isSince) await jsm.streams.deleteMessage('TOLD', seq);
      }
    },
    async readAll() {
      const kept = new Map();
      for (const part of allParts) {
        const options = {
          deliver_policy: DeliverPolicy.LastPerSubject,
          filter_subjects: subjectOf(part, unitKey('*')),
        };
        const consumer = await js.consumers.get(bucketStream(part), options);
        const { num_pending: wanted } = await consumer.info();
        for (let found = 0; found < wanted; ) {
          const some = await fetched(consumer, wanted - found);
          for (const message of some) kept.set(message.subject.split('.').pop(), message.json());
          found += some.length;
        }
      }
      const told = await messages('TOLD');
      const of = (name) =>
        told.filter((one) => one[name] !== undefined).map((one) => ({ unit: one.unit, body: one[name] }));
      const order = ({ body: { id } }) => id.split('.').slice(-2).map(Number);
      const events = of('event').sort((a, b) => order(a)[0] - order(b)[0] || order(a)[1] - order(b)[1]);
      const buckets = of('bucket').sort((a, b) => a.body.start - b.body.start);
      return { kept, events, buckets };
    },
    async size() {
      const of = async (stream) => (await jsm.streams.info(stream)).state.bytes;
      const told = await of('TOLD');
      let [inputs, records] = [0, 0];
      for (const part of allParts) {
        inputs += await of(inputStream(part));
        records += await of(bucketStream(part));
      }
      return `bytes on each of three servers: inputs ${inputs}, records ${records}, events and buckets ${told}`;
    },
  };
}

/** What a worker of the trial works with. */
export const workOn = (connection) => natsEngine(connection);

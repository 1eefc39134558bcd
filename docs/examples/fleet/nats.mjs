// The four functions on NATS JetStream, 2.9 or later. Inputs are a stream for each part, one subject for each unit; an
// ordered consumer reads them on from the place that the part's bucket of the key-value store names. What is kept of a
// unit stands in that bucket too, and so does who holds the part.
//
// A bucket is a stream: whoever takes a part writes its name into it, and each write after that expects the one before
// it to be the last. So a worker that has lost its part, asleep or cut off, puts nothing: the name of the next one
// stands between. (That a key still has the revision that was read does not do it: of two such writes at once 2.9.10
// takes both.)
//
// Events cannot be published in the same step. So they wait in what is kept, and are published after it is stored; then
// the place moves on, and the part is free. A worker that dies in between leaves the place as it was, and the next one
// publishes what waits from beyond it. Each has a subject of its own, which must still be empty, and its id as message
// id: published twice it is there once, however late.
import { randomUUID } from 'node:crypto';
import { jetstream, jetstreamManager } from '@nats-io/jetstream';
import { Kvm } from '@nats-io/kv';
import { connect, headers } from '@nats-io/transport-node';
import { partOf, parts } from './parts.mjs';

/** Each unit of a batch costs a read and a write on three servers, however many inputs it has in it. */
const batchSize = 400;
const leastBatch = 50;
/** Longer than a batch takes: a part of which nothing was heard for so long is taken by another worker. */
export const holdMs = 10000;
/** A message id is known for so long: longer than any worker sleeps. */
export const duplicateMs = 120000;
const nanos = 1000000;
/** A stream for each part: a consumer that filters one stream of all gave out 20 inputs a second at times (2.9.10). */
export const inputStream = (part) => `INPUTS-${part}`;
const bucketName = (part) => `units-${part}`;
export const bucketStream = (part) => `KV_${bucketName(part)}`;
/** The key under which a part names its worker and its place; those of units have a prefix. */
const placeKey = 'place';
export const unitKey = (unit) => `unit.${unit}`;
export const subjectOf = (part, key) => `$KV.${bucketName(part)}.${key}`;
/** The error of a write that expected another one before it. */
const notExpected = 10071;

export async function natsClient(servers) {
  const options = { servers, maxReconnectAttempts: -1, reconnectTimeWait: 200, waitOnFirstConnect: true };
  // a trace for each request would be a sixth of a worker's CPU
  const nc = await connect({ ...options, noAsyncTraces: true });
  const js = jetstream(nc, { timeout: 5000 });
  const jsm = await jetstreamManager(nc, { timeout: 5000, checkAPI: false });
  return { nc, js, jsm };
}

/** Streams and buckets, each on three servers. Only a leader is read: another server may be behind. */
export async function setUp({ js, jsm }) {
  const events = { name: 'TOLD', subjects: ['told.>'], max_msgs_per_subject: 1, duplicate_window: duplicateMs * nanos };
  await jsm.streams.add({ ...events, num_replicas: 3 });
  for (let part = 0; part < parts; part += 1) {
    await jsm.streams.add({ name: inputStream(part), subjects: [`input.${part}.*`], num_replicas: 3 });
    await new Kvm(js).create(bucketName(part), { history: 1, replicas: 3, allow_direct: false });
  }
}

export const openBucket = ({ js }, part) => new Kvm(js).open(bucketName(part));

/** How far a part has been taken, by whom it is held, and the number of the write that says so. */
export async function placeOf(bucket) {
  const entry = await bucket.get(placeKey);
  return entry === null ? { by: '', done: 0, revision: 0 } : { ...entry.json(), revision: entry.revision };
}

/**
 * Publishes inputs `{ unit, seq, text }`, and gives those that were not acknowledged: publish them again. All others
 * are on two servers at least. Twice is as good as once.
 */
export async function publish({ js }, inputs) {
  const ended = await Promise.allSettled(
    inputs.map(({ unit, seq, text }) => {
      const options = { headers: headers() };
      options.headers.set('seq', String(seq));
      return js.publish(`input.${partOf(unit)}.${unit}`, text, options);
    }),
  );
  return inputs.filter((_, i) => ended[i].status === 'rejected');
}

/** Waits for all of them, so that none is under way any more when one has failed. */
async function allOf(promises) {
  const ended = await Promise.allSettled(promises);
  const failed = ended.find(({ status }) => status === 'rejected');
  if (failed !== undefined) throw failed.reason;
}

export async function natsEngine(servers) {
  const client = await natsClient(servers);
  const { nc, js, jsm } = client;
  const me = randomUUID();
  const buckets = [];
  const readers = [];
  const heard = [];
  let part = Math.floor(Math.random() * parts);
  let size = batchSize;

  /** Tries the parts in turn, each time from the next one on, so that none is forgotten. */
  async function take() {
    for (let tried = 0; tried < parts; tried += 1) {
      part = (part + 1) % parts;
      buckets[part] ??= await openBucket(client, part);
      const place = await placeOf(buckets[part]);
      if (!isFree(place)) continue;
      const { first_seq: first, last_seq: last } = (await jsm.streams.info(inputStream(part))).state;
      const done = Math.max(place.done, first - 1);
      if (last <= done) continue;
      const batch = { part, done, last: await lastWrite(place), inputs: [] };
      if (batch.last === null || !(await claim(batch))) continue;
      batch.inputs = await read(batch, Math.min(size, last - done));
      return batch;
    }
    return null;
  }

  /** Nobody's, my own, or of one that has not been heard of for long, by the clock here. */
  function isFree({ by, revision }) {
    if (by === '' || by === me) return true;
    if (heard[part]?.revision !== revision) heard[part] = { revision, since: Date.now() };
    return Date.now() - heard[part].since > holdMs;
  }

  /** The number of the last write to the bucket, or null where the part has changed hands meanwhile. */
  async function lastWrite({ revision }) {
    const { last_seq: last } = (await jsm.streams.info(bucketStream(part))).state;
    return (await placeOf(buckets[part])).revision === revision ? last : null;
  }

  /** Writes to the bucket of a batch, if nobody else has since its last write. */
  async function write(batch, key, value) {
    const expect = { lastSequence: batch.last };
    batch.last += 1;
    await js.publish(subjectOf(batch.part, key), JSON.stringify(value), { expect });
  }

  async function claim(batch) {
    try {
      await write(batch, placeKey, { by: me, done: batch.done });
      return true;
    } catch (error) {
      if (error.code !== notExpected) throw error;
      return false;
    }
  }

  /** The next inputs from a place on. A reader that has stopped there goes on; any other is made anew. */
  async function read({ part: from, done }, most) {
    let reader = readers[from];
    readers[from] = undefined;
    if (reader?.done !== done) {
      const options = { opt_start_seq: done + 1, inactive_threshold: 60000 };
      reader = { consumer: await js.consumers.get(inputStream(from), options), done };
    }
    const inputs = [];
    const messages = await reader.consumer.fetch({ max_messages: most, expires: 2000 });
    const late = setTimeout(() => messages.stop(), 4000);
    for await (const message of messages) inputs.push(inputOf(message));
    clearTimeout(late);
    if (inputs.length === 0) throw new Error(`${inputStream(from)} gives nothing out`);
    if (inputs.length === most) readers[from] = { ...reader, done: inputs.at(-1).place };
    return inputs;
  }

  function inputOf({ subject, headers: given, data, seq: place }) {
    const unit = subject.split('.')[2];
    return { unit, seq: Number(given.get('seq')), text: new TextDecoder().decode(data), place };
  }

  /** What is kept. Of a step that was stored, and whose place did not move on, the events first. */
  async function load({ part: from, done }, units) {
    const kept = new Map();
    await allOf(
      units.map(async (unit) => {
        const entry = await buckets[from].get(unitKey(unit));
        if (entry === null) return;
        const { outbox, upTo, ...rest } = entry.json();
        if (upTo > done) await allOf(outbox.map(tell));
        kept.set(unit, rest);
      }),
    );
    return kept;
  }

  /**
   * Publishes what is told, once: a subject that is no longer empty has it. A leader knows an id before the message is
   * stored, and may lose it with its lead (2.9.10 was seen to): so `duplicate` counts only if the message is there.
   */
  async function tell({ subject, ...told }) {
    const text = JSON.stringify(told);
    const expect = { lastSubjectSequence: 0 };
    try {
      const { duplicate } = await js.publish(subject, text, { msgID: subject, expect });
      if (!duplicate || (await jsm.streams.getMessage('TOLD', { last_by_subj: subject })) !== null) return;
      await js.publish(subject, text, { expect });
    } catch (error) {
      if (error.code !== notExpected) throw error;
    }
  }

  async function store(batch, steps) {
    const upTo = batch.inputs.at(-1).place;
    const stored = steps.map(({ unit, kept, events, buckets: full }) => ({
      unit,
      kept,
      outbox: [
        ...events.map((event) => ({ subject: `told.${event.id}`, unit, event })),
        ...full.map((bucket) => ({ subject: `told.${unit}.bucket.${bucket.start}`, unit, bucket })),
      ],
    }));
    await allOf(stored.map(({ unit, kept, outbox }) => write(batch, unitKey(unit), { ...kept, outbox, upTo })));
    await allOf(stored.flatMap(({ outbox }) => outbox.map(tell)));
    await write(batch, placeKey, { by: '', done: upTo });
    size = Math.min(batchSize, 2 * size);
  }

  /**
   * Little is taken until it goes well. The part is free at once where nothing was written since it was taken; else
   * when it is taken again.
   */
  async function letGo(batch) {
    size = leastBatch;
    if (batch !== null) write(batch, placeKey, { by: '', done: batch.done }).catch(() => {});
  }

  return { take, load, store, letGo, close: () => nc.close() };
}

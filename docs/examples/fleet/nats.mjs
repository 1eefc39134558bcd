// The four functions on NATS JetStream, 2.9 or later. Inputs are a stream, one subject for each unit; a pull consumer
// for each part gives them out, and gives them again where they are not acknowledged in time. What is kept of a unit
// stands in a key-value store, and is put there only if it is still what was read: whoever wakes late puts nothing.
//
// Events cannot be published in the same step. So they wait in what is kept, are published after it is stored, each
// under its id, and are then taken out of it. Only then the inputs are acknowledged: a worker that dies in between
// leaves them to be given again, and the next one publishes what waits. The stream drops an id that it has had within
// `windowMs`, which is longer than any stall.
import { AckPolicy, jetstream, jetstreamManager } from '@nats-io/jetstream';
import { Kvm } from '@nats-io/kv';
import { connect, headers } from '@nats-io/transport-node';
import { partOf, parts } from './parts.mjs';

/** Each unit of a batch costs a read and a write on three servers, however many inputs it has in it. */
const batchSize = 1500;
/** Longer than a batch takes: inputs not acknowledged for so long are given to another worker. */
export const holdMs = 15000;
const windowMs = 1800000;
const nanos = 1000000;

export async function natsClient(servers) {
  const nc = await connect({ servers, maxReconnectAttempts: -1, reconnectTimeWait: 200, waitOnFirstConnect: true });
  const js = jetstream(nc, { timeout: 10000 });
  const jsm = await jetstreamManager(nc, { timeout: 10000, checkAPI: false });
  return { nc, js, jsm, kv: null };
}

/** Streams, consumers and the key-value store, each on three servers. */
export async function setUp(client) {
  const { js, jsm } = client;
  const common = { num_replicas: 3, duplicate_window: windowMs * nanos };
  await jsm.streams.add({ name: 'INPUTS', subjects: ['input.*.*'], ...common });
  await jsm.streams.add({ name: 'TOLD', subjects: ['told.*'], ...common });
  client.kv = await new Kvm(js).create('units', { history: 1, replicas: 3 });
  for (let part = 0; part < parts; part += 1)
    await jsm.consumers.add('INPUTS', {
      durable_name: `part-${part}`,
      filter_subject: `input.${part}.*`,
      ack_policy: AckPolicy.Explicit,
      ack_wait: holdMs * nanos,
      max_ack_pending: batchSize,
    });
}

/**
 * Publishes inputs `{ unit, seq, text }`: when this returns they are on two servers at least. Twice is as good as once.
 */
export async function publish({ js }, inputs) {
  await Promise.all(
    inputs.map(({ unit, seq, text }) => {
      const options = { msgID: `${unit}.${seq}`, headers: headers() };
      options.headers.set('seq', String(seq));
      return js.publish(`input.${partOf(unit)}.${unit}`, text, options);
    }),
  );
}

export async function natsEngine(servers) {
  const { nc, js } = await natsClient(servers);
  const kv = await new Kvm(js).open('units');
  const consumers = [];
  let part = Math.floor(Math.random() * parts);

  /**
   * Tries the parts in turn, the one of last time first; then those whose inputs are in hand, since that hand may be
   * dead.
   */
  async function take() {
    const inHand = [];
    for (let tried = 0; tried < parts; tried += 1) {
      consumers[part] ??= await js.consumers.get('INPUTS', `part-${part}`);
      const { num_pending: waiting, num_ack_pending: given } = await consumers[part].info();
      const free = Math.min(waiting, batchSize - given);
      const messages = free > 0 ? await pull(consumers[part], free, 2000) : [];
      if (messages.length > 0) return batchOf(messages);
      if (given > 0) inHand.push(part);
      part = (part + 1) % parts;
    }
    for (const one of inHand) {
      const messages = await pull(consumers[one], batchSize, 2000);
      if (messages.length > 0) return batchOf(messages);
    }
    return null;
  }

  /** Waits so long where there are not so many. What has come is taken, also where the pull then fails. */
  async function pull(consumer, most, expires) {
    const messages = [];
    try {
      for await (const message of await consumer.fetch({ max_messages: most, expires })) messages.push(message);
    } catch (error) {
      if (messages.length === 0) throw error;
    }
    return messages;
  }

  const batchOf = (messages) => ({ messages, inputs: messages.map(inputOf), revisions: new Map() });

  function inputOf({ subject, headers: given, data }) {
    return { unit: subject.split('.')[2], seq: Number(given.get('seq')), text: new TextDecoder().decode(data) };
  }

  /** What is kept; of an earlier step that was stored and not told, the events first. */
  async function load({ revisions }, units) {
    const kept = new Map();
    await Promise.all(
      units.map(async (unit) => {
        const entry = await kv.get(unit);
        revisions.set(unit, entry?.revision ?? 0);
        if (entry === null) return;
        const { outbox, ...rest } = entry.json();
        if (outbox.length > 0) await settle(unit, rest, outbox, revisions);
        kept.set(unit, rest);
      }),
    );
    return kept;
  }

  async function put(unit, value, revisions) {
    revisions.set(unit, await kv.put(unit, JSON.stringify(value), { previousSeq: revisions.get(unit) }));
  }

  async function settle(unit, kept, outbox, revisions) {
    const publishing = outbox.map(({ msgID, ...told }) =>
      js.publish(`told.${unit}`, JSON.stringify({ unit, ...told }), { msgID }),
    );
    await Promise.all(publishing);
    await put(unit, { ...kept, outbox: [] }, revisions);
  }

  async function store({ messages, revisions }, steps) {
    await Promise.all(
      steps.map(async ({ unit, kept, events, buckets }) => {
        const outbox = [
          ...events.map((event) => ({ msgID: event.id, event })),
          ...buckets.map((bucket) => ({ msgID: `${unit}.bucket.${bucket.start}`, bucket })),
        ];
        await put(unit, { ...kept, outbox }, revisions);
        if (outbox.length > 0) await settle(unit, kept, outbox, revisions);
      }),
    );
    for (const message of messages) message.ack();
    await nc.flush();
  }

  async function letGo(batch) {
    for (const message of batch?.messages ?? []) message.nak();
  }

  return { take, load, store, letGo, close: () => nc.close() };
}

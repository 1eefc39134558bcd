// The four functions on NATS JetStream, 2.9 or later. Inputs are a stream for each part, one subject for each unit; a
// pull consumer gives them out, and gives them again where they are not acknowledged in time. What is kept of a unit
// stands in a key-value store, and is put there only if it is still what was read: whoever wakes late puts nothing.
//
// Events cannot be published in the same step. So they wait in what is kept, are published after it is stored, each
// under a subject of its own that is its id, and are then taken out of it. Only then the inputs are acknowledged: a
// worker that dies in between leaves them to be given again, and the next one publishes what waits. A subject holds one
// message: published twice it is there once, however late. Message ids with a window for duplicates do not do it:
// while a leader fails over, 2.9.10 was seen to lose some and to keep some twice.
import { AckPolicy, jetstream, jetstreamManager } from '@nats-io/jetstream';
import { Kvm } from '@nats-io/kv';
import { connect, headers } from '@nats-io/transport-node';
import { partOf, parts } from './parts.mjs';

/** Each unit of a batch costs a read and a write on three servers, however many inputs it has in it. */
const batchSize = 1500;
/** Longer than a batch takes: inputs not acknowledged for so long are given to another worker. */
export const holdMs = 15000;
const nanos = 1000000;
/** A stream for each part: a consumer that filters one stream of all gave out 20 inputs a second at times (2.9.10). */
export const inputStream = (part) => `INPUTS-${part}`;
const consumerName = 'workers';

export async function natsClient(servers) {
  const nc = await connect({ servers, maxReconnectAttempts: -1, reconnectTimeWait: 200, waitOnFirstConnect: true });
  const js = jetstream(nc, { timeout: 10000 });
  const jsm = await jetstreamManager(nc, { timeout: 10000, checkAPI: false });
  return { nc, js, jsm, kv: null };
}

/** Streams, consumers and the key-value store, each on three servers. */
export async function setUp(client) {
  const { js, jsm } = client;
  const common = { num_replicas: 3 };
  await jsm.streams.add({ name: 'TOLD', subjects: ['told.>'], max_msgs_per_subject: 1, ...common });
  client.kv = await new Kvm(js).create('units', { history: 1, replicas: 3 });
  for (let part = 0; part < parts; part += 1) {
    await jsm.streams.add({ name: inputStream(part), subjects: [`input.${part}.*`], ...common });
    await jsm.consumers.add(inputStream(part), {
      durable_name: consumerName,
      ack_policy: AckPolicy.Explicit,
      ack_wait: holdMs * nanos,
      max_ack_pending: batchSize,
    });
  }
}

/**
 * Publishes inputs `{ unit, seq, text }`: when this returns they are on two servers at least. Twice is as good as once.
 */
export async function publish({ js }, inputs) {
  await Promise.all(
    inputs.map(({ unit, seq, text }) => {
      const options = { headers: headers() };
      options.headers.set('seq', String(seq));
      return js.publish(`input.${partOf(unit)}.${unit}`, text, options);
    }),
  );
}

export async function natsEngine(servers) {
  const { nc, js } = await natsClient(servers);
  const kv = await new Kvm(js).open('units');
  const consumers = [];
  const heldSince = [];
  let part = Math.floor(Math.random() * parts);

  /** Tries the parts in turn, each time from the next one on, so that none is forgotten. */
  async function take() {
    for (let tried = 0; tried < parts; tried += 1) {
      part = (part + 1) % parts;
      consumers[part] ??= await js.consumers.get(inputStream(part), consumerName);
      const { num_pending: waiting, num_ack_pending: given } = await consumers[part].info();
      const wanted = wantedOf(waiting, given);
      const messages = wanted > 0 ? await pull(consumers[part], wanted, 2000) : [];
      if (messages.length > 0) return { messages, inputs: messages.map(inputOf), revisions: new Map() };
    }
    return null;
  }

  /** As many as wait and may be given out. Where none may for long, the hand they are in may be dead: ask for all. */
  function wantedOf(waiting, given) {
    const free = Math.min(waiting, batchSize - given);
    if (free > 0 || given === 0) {
      heldSince[part] = undefined;
      return free;
    }
    heldSince[part] ??= Date.now();
    if (Date.now() - heldSince[part] < holdMs) return 0;
    heldSince[part] = undefined;
    return batchSize;
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
    const publishing = outbox.map(({ subject, ...told }) => js.publish(subject, JSON.stringify({ unit, ...told })));
    await Promise.all(publishing);
    await put(unit, { ...kept, outbox: [] }, revisions);
  }

  async function store({ messages, revisions }, steps) {
    await Promise.all(
      steps.map(async ({ unit, kept, events, buckets }) => {
        const outbox = [
          ...events.map((event) => ({ subject: `told.${event.id}`, event })),
          ...buckets.map((bucket) => ({ subject: `told.${unit}.bucket.${bucket.start}`, bucket })),
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

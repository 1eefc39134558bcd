// One unit on a thread of its own.
import { parentPort, workerData } from 'node:worker_threads';
import { watch } from './watch.mjs';

const { unit, days, keep } = workerData;
parentPort.postMessage(watch(unit, days, keep));

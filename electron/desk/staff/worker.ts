import { parentPort, workerData } from 'node:worker_threads';
import type { WorkerSetting } from './messages.ts';
import { work } from './work.ts';

/** A worker of the desk as a program: `build/desk-worker.js`, started by `openStaff`. */
if (parentPort === null) throw new Error('a worker of the desk is started by its host');
await work(workerData as WorkerSetting, parentPort);

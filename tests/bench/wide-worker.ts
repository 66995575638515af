import { parentPort, workerData } from 'node:worker_threads';
import type { AnyReply } from '../../electron/bridge/receive.ts';
import { well } from '../../electron/bridge/reply.ts';
import { openDesk } from '../../electron/desk/open-desk.ts';
import type { WorkerSetting } from '../../electron/desk/staff/messages.ts';
import { work } from '../../electron/desk/staff/work.ts';
import { explainWide } from './wide-sheet.ts';

/** A worker of the desk that explains the wide sheet, whatever it is asked to explain. */
if (parentPort === null) throw new Error('started by the bench');
await work(workerData as WorkerSetting, parentPort, (store, kept, reasoning, pulse) => {
  const wide = async (): Promise<AnyReply> => well(explainWide(20_000, pulse)) as unknown as AnyReply;
  return { ...openDesk(store, kept, reasoning), 'verdict.explain': wide } as unknown as ReturnType<typeof openDesk>;
});

import { existsSync } from 'node:fs';
import path from 'node:path';
import { BroadcastChannel, type MessagePort, parentPort, receiveMessageOnPort, workerData } from 'node:worker_threads';
import type { AnyReply } from '../../../../electron/bridge/receive.ts';
import { well } from '../../../../electron/bridge/reply.ts';
import { openDesk } from '../../../../electron/desk/open-desk.ts';
import type { WorkerSetting } from '../../../../electron/desk/staff/messages.ts';
import { work } from '../../../../electron/desk/staff/work.ts';

/**
 * A worker of the desk whose explanations are held until the test lets them go: on the channel named on the command line it says that it is there, and which one it has begun, and goes on once it
 * hears that name. So are words beside a case, between two steps. As the reasoner does, it computes without a pause and calls the pulse as it goes. A sheet of the id `die` is the end of the worker that is asked to remove it.
 * While there is a file `hold-starts` in the data folder, none that reasons is there yet.
 */
if (parentPort === null) throw new Error('started by a test');
const channel = new BroadcastChannel(process.argv[2] as string);
channel.unref();
channel.postMessage(`started ${(workerData as WorkerSetting).role}`);
const pause = new Int32Array(new SharedArrayBuffer(4));
const { role, data } = workerData as WorkerSetting;
while (role === 'back' && existsSync(path.join(data, 'hold-starts'))) Atomics.wait(pause, 0, 0, 2);

await work(workerData as WorkerSetting, parentPort, (store, kept, reasoning, pulse) => {
  const desk = openDesk(store, kept, reasoning);
  const held = async ({ name }: { readonly name: string }): Promise<AnyReply> => {
    channel.postMessage(`held ${name}`);
    for (let done = 1; ; done += 1) {
      pulse({ what: 'reasons', done, of: null });
      const heard = receiveMessageOnPort(channel as unknown as MessagePort)?.message as unknown;
      if (heard === `go on ${name}`) return well(`${name} to its end`) as unknown as AnyReply;
      Atomics.wait(pause, 0, 0, 2);
    }
  };
  const die = async ({ id }: { readonly id: string }): Promise<AnyReply> => {
    if (id !== 'die') return desk['sheets.remove']({ id } as never);
    setImmediate(() => {
      throw new Error('the end of a worker');
    });
    return new Promise(() => {});
  };
  // Of several steps, as what is written is; between two of them the worker hears other things.
  const inSteps = async (asked: Parameters<(typeof desk)['cases.describe']>[0]): Promise<AnyReply> => {
    const goOn = new Promise<void>((resolve) => {
      channel.onmessage = (message) => (message as { readonly data: unknown }).data === 'go on steps' && resolve();
    });
    channel.postMessage('held steps');
    await goOn;
    return desk['cases.describe'](asked);
  };
  return { ...desk, 'cases.describe': inSteps, 'verdict.explain': held, 'sheets.remove': die } as unknown as typeof desk;
});

import { parentPort, workerData } from 'node:worker_threads';

/** A window on a thread of its own: asks for one long answer, and meanwhile for short ones, one after the other. */
export interface Asking {
  readonly address: string;
  readonly sheet: unknown;
}

export interface AskedFor {
  readonly long: { readonly milliseconds: number; readonly bytes: number };
  /** Milliseconds of each short one. */
  readonly short: readonly number[];
}

const { address, sheet } = workerData as Asking;
const { origin, hash } = new URL(address);
const post = (path: string, body: unknown, token: string | null = null) =>
  fetch(`${origin}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin, ...(token === null ? {} : { 'x-kinplate-token': token }) },
    body: JSON.stringify(body),
  });

const { token } = (await (await post('/enter', { key: hash.slice(1) })).json()) as { token: string };
const began = performance.now();
let over = false;
const long = post('/ask/verdict.explain', { sheet, name: 'wide' }, token).then(async (response) => {
  const { byteLength } = await response.arrayBuffer();
  over = true;
  return { milliseconds: performance.now() - began, bytes: byteLength };
});
const short: number[] = [];
while (!over) {
  const asked = performance.now();
  await (await post('/ask/atlas.search', { text: 'petrel', limit: 20 }, token)).arrayBuffer();
  short.push(performance.now() - asked);
}
parentPort?.postMessage({ long: await long, short } satisfies AskedFor);

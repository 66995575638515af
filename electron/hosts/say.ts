import type { Trouble } from '../bridge/contract.ts';
import { faultLines } from '../bridge/fault-lines.ts';
import type { LogBug } from '../bridge/receive.ts';
import { adviceFor } from './fault-page.ts';

/** A start that was refused, with its reason said. `npm start` does not try the other host then. */
export const faultExit = 3;

/** What the start script is told over the channel to it, where it started us. */
export type StartNews = { readonly kind: 'window open' };

/** The window is there: from now on an end of this program is no failed start. */
export const sayOpen = (): void => void process.send?.({ kind: 'window open' } satisfies StartNews);

export const tell = (line: string): void => console.error(`· ${line}`);

export const tellBug: LogBug = (place, error) => {
  console.error(`A bug, in ${place}:`);
  console.error(error);
};

/** A start that failed, in the terminal: every fault that was found, and what to do where this program can help. */
export const tellFault = (trouble: Trouble): void => {
  for (const line of faultLines(trouble)) console.error(line);
  const advice = adviceFor(trouble);
  if (advice !== null) console.error(advice);
};

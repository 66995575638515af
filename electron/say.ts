import type { LogBug } from './bridge/receive.ts';

/** A start that was refused, with its reason said. `npm start` does not try the other host then. */
export const faultExit = 3;

export const tell = (line: string): void => console.error(`· ${line}`);

export const tellBug: LogBug = (place, error) => {
  console.error(`A bug, in ${place}:`);
  console.error(error);
};

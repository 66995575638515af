import { parseArgs } from 'node:util';
import { optionFault } from '../bridge/option-fault.ts';
import { defaultDataFolder } from '../desk/data-folder.ts';

/** What both hosts may be told on their command line. */
export interface StartOptions {
  readonly data: string;
  /** Null when none is asked for; 0 for any free one. */
  readonly port: number | null;
  readonly open: boolean;
}

/** Reads the hosts' command line, or says what is wrong with it. */
export const readStartOptions = (args: readonly string[]): StartOptions | string => {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: { data: { type: 'string' }, port: { type: 'string' }, open: { type: 'boolean' } },
    });
    const port = values.port === undefined ? null : Number(values.port);
    if (port !== null && (!Number.isInteger(port) || port < 0 || port > 65_535))
      return `--port takes a number from 0 to 65535, not “${values.port}”.`;
    return {
      data: defaultDataFolder({ ...process.env, ...(values.data ? { KINPLATE_DATA: values.data } : {}) }),
      port,
      open: values.open ?? false,
    };
  } catch (error) {
    return optionFault(error);
  }
};

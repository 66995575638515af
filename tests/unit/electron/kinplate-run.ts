import { runKinplate } from '../../../electron/command-line/run-kinplate.ts';

/** Noon of a day, for what is dated. */
const now = () => new Date('2026-03-04T12:00:00Z');

/** The command line as a script calls it: what it printed, and how it ended. */
export const kinplateRun = async (
  args: readonly string[],
  { shipped, input = () => '', stopped }: { readonly shipped: string; input?(): string; stopped?(): boolean },
) => {
  let out = '';
  const err: string[] = [];
  const terminal = {
    out: (text: string) => {
      out += text;
    },
    err: (line: string) => err.push(line),
    read: async () => input(),
  };
  // A command that writes makes files for its user alone, until its process ends; this one goes on.
  const mask = process.umask();
  try {
    const code = await runKinplate(args, terminal, { shipped, now, ...(stopped === undefined ? {} : { listenForStop: () => stopped }) });
    return { code, out, err: err.join('\n') };
  } finally {
    process.umask(mask);
  }
};

import { spawn } from 'node:child_process';
import { root } from './sources.mjs';

/**
 * Runs one of the two hosts in this terminal. `opened` tells whether it got as far as its window: it says so over the channel between the two processes (`sayOpen` in
 * `electron/hosts/say.ts`), and what it prints is for people alone.
 */
export const runHost = (program, args) =>
  new Promise((resolve) => {
    let opened = false;
    const child = spawn(program, args, { cwd: root, stdio: ['inherit', 'inherit', 'inherit', 'ipc'] });
    child.on('message', (message) => {
      opened ||= message?.kind === 'window open';
    });
    // Ctrl-C reaches the child as well, which closes its store; this process waits for it.
    process.on('SIGINT', () => {});
    process.on('SIGTERM', () => child.kill('SIGTERM'));
    process.on('SIGHUP', () => child.kill('SIGTERM'));
    stopWithStarter(child);
    child.once('error', () => resolve({ code: 1, opened: false }));
    child.once('close', (code, signal) => resolve({ code: code ?? (signal === 'SIGINT' || signal === 'SIGTERM' ? 0 : 1), opened }));
  });

/** npm passes no signal on when it is ended itself, and whoever is killed passes none; then nobody is left who could end us. */
const stopWithStarter = (child) => {
  const parent = process.ppid;
  setInterval(() => {
    if (process.ppid !== parent) child.kill('SIGTERM');
  }, 500).unref();
};

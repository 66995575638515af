import { contextBridge, ipcRenderer } from 'electron';
import type { Bridge, CallArgs, CallName, Reply } from '../../../bridge/contract.ts';

/**
 * All the window gets: one function that carries a call's name and argument over one channel. What may be asked, and
 * with what, is decided on the other side, where the contract reads it.
 */
const desk = {
  ask: <C extends CallName>(name: C, args: CallArgs<C>): Promise<Reply<C>> => ipcRenderer.invoke('desk', name, args) as Promise<Reply<C>>,
} satisfies Bridge;

contextBridge.exposeInMainWorld('desk', desk);

import { contextBridge, ipcRenderer } from 'electron';
import type { Bridge, CallArgs, CallName, How, Reply } from '../../../bridge/contract.ts';
import type { News } from '../../../bridge/news.ts';

/**
 * All the window gets: calls by name and argument over one channel, and news over another. What may be asked, and with what, is decided on the other side, where the contract
 * reads it. An argument and an answer cross as JSON, so that the desktop's own thread only passes them on.
 */
let last = 0;
const waiting = new Map<number, NonNullable<How['onProgress']>>();
const listeners = new Set<() => void>();

ipcRenderer.on('desk-news', (_event, news: News) => {
  if (news.kind === 'progress') waiting.get(news.ask)?.(news.progress);
  else for (const listener of listeners) listener();
});

const desk = {
  ask: async <C extends CallName>(name: C, args: CallArgs<C>, how: How = {}): Promise<Reply<C>> => {
    last += 1;
    const ask = last;
    if (how.onProgress !== undefined) waiting.set(ask, how.onProgress);
    try {
      const text: Uint8Array = await ipcRenderer.invoke('desk', name, JSON.stringify(args), { ask, place: how.place ?? null });
      return JSON.parse(new TextDecoder().decode(text)) as Reply<C>;
    } finally {
      waiting.delete(ask);
    }
  },
  cancel: (place: string): void => void ipcRenderer.invoke('desk-cancel', { ask: last, place }),
  onAtlasChanged: (listener: () => void): (() => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
} satisfies Bridge;

contextBridge.exposeInMainWorld('desk', desk);

import { type IpcMainInvokeEvent, ipcMain, type WebContents } from 'electron';
import type { News } from '../../bridge/news.ts';
import { refusal } from '../../bridge/reply.ts';
import type { Staff } from '../../desk/staff/staff.ts';
import { isOurs } from './address.ts';

/** The channels of the bridge. Everything that arrives is unknown: the name until the staff has found it, the argument until a worker has read it, how it is asked until it is read here. */
export const setupDesk = (staff: Staff): void => {
  const windows = new Set<WebContents>();
  const known = (window: WebContents): void => {
    if (windows.has(window)) return;
    windows.add(window);
    const leave = (): void => staff.leave(String(window.id));
    // A page that is loaded anew has asked nothing yet, and one that broke down hears nothing.
    window.on('did-navigate', leave);
    window.on('render-process-gone', leave);
    window.once('destroyed', () => {
      windows.delete(window);
      leave();
    });
  };

  ipcMain.handle('desk', async (event, name: unknown, args: unknown, how: unknown): Promise<Uint8Array> => {
    if (!fromOurWindow(event)) return refused;
    const window = event.sender;
    known(window);
    const { ask, place } = howAsked(how);
    const { text } = await staff.ask({
      window: String(window.id),
      place,
      order: ask,
      name,
      args: typeof args === 'string' ? args : '',
      onProgress: (progress) => tell(window, { kind: 'progress', ask, progress }),
    });
    return text;
  });
  ipcMain.handle('desk-cancel', (event, how: unknown): void => {
    const { ask, place } = howAsked(how);
    if (fromOurWindow(event) && place !== null) staff.cancel(String(event.sender.id), place, ask);
  });
  staff.onAtlasChanged(() => {
    for (const window of windows) tell(window, { kind: 'atlas changed' });
  });
};

const tell = (window: WebContents, news: News): void => {
  if (!window.isDestroyed()) window.send('desk-news', news);
};

const refused = new TextEncoder().encode(JSON.stringify(refusal('refused', null, 'This program answers its own window only.')));

const howAsked = (how: unknown): { readonly ask: number; readonly place: string | null } => {
  const { ask, place }: Readonly<Record<string, unknown>> = typeof how === 'object' && how !== null ? { ...how } : {};
  return { ask: typeof ask === 'number' ? ask : 0, place: typeof place === 'string' && place.length <= longestPlace ? place : null };
};

const longestPlace = 300;

/** Only the top frame of a page of ours may ask; a frame that has gone away (null) may not. */
const fromOurWindow = (event: IpcMainInvokeEvent): boolean => {
  const frame = event.senderFrame;
  return frame !== null && frame.parent === null && isOurs(frame.url);
};

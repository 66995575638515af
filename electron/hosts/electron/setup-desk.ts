import { type IpcMainInvokeEvent, ipcMain } from 'electron';
import { type AnyReply, type LogBug, receive } from '../../bridge/receive.ts';
import { trouble } from '../../bridge/reply.ts';
import type { Desk } from '../../desk/desk.ts';
import { isOurs } from './address.ts';

/** The one channel of the bridge. Name and argument are unknown until `receive` has read them. */
export const setupDesk = (desk: Desk, logBug: LogBug): void => {
  ipcMain.handle('desk', async (event, name: unknown, args: unknown): Promise<AnyReply> => {
    if (!fromOurWindow(event)) return trouble('refused', null, 'This program answers its own window only.');
    return receive(desk, name, args, logBug);
  });
};

/** Only the top frame of a page of ours may ask; a frame that has gone away (null) may not. */
const fromOurWindow = (event: IpcMainInvokeEvent): boolean => {
  const frame = event.senderFrame;
  return frame !== null && frame.parent === null && isOurs(frame.url);
};

import type { Desk } from '../../../electron/bridge/desk.ts';
import { type LogBug, receiveText } from '../../../electron/bridge/receive.ts';
import type { Staff } from '../../../electron/desk/staff/staff.ts';

/** A desk answered on the test's own thread, for tests of what stands before it and behind it; the workers have tests of their own. */
export const staffOf = (desk: Desk, logBug: LogBug): Staff => ({
  ask: async ({ name, args }) => {
    const { reply, read } = await receiveText(desk, name, args, logBug);
    return { text: new TextEncoder().encode(JSON.stringify(reply)), read };
  },
  cancel: () => {},
  leave: () => {},
  onAtlasChanged: () => () => {},
  missing: () => null,
  close: async () => {},
});

import type { Trouble } from '../../../db/index.ts';
import type { Progress } from '../../../reasoner/index.ts';
import type { Room } from '../../bridge/call.ts';
import type { JsonText } from '../../bridge/receive.ts';

/**
 * What a worker is there for. One *front* answers from the store and writes to it, and nobody else writes; *back* ones reason, one question at a time, over a store opened
 * for reading; one is for *runs*, which go on a little at a time.
 */
export type Role = 'front' | 'back' | 'runs';

/** What a worker is started with. */
export interface WorkerSetting {
  readonly role: Role;
  /** The data folder. */
  readonly data: string;
  /** The folder of the packs that come with the program. */
  readonly packs: string;
  /** Two Int32: the number of the question to be stopped, and 1 once everything is. Written by the host, read at every pulse. */
  readonly flags: SharedArrayBuffer;
  /** Milliseconds between two looks whether the atlas has changed. */
  readonly watchEvery: number;
  /** Milliseconds between two looks whether a backup is due. */
  readonly backupLookEvery: number;
  /** Whether the front stays where the atlas is gone, and asks what shall be there instead. */
  readonly asksWhenMissing: boolean;
}

/** Where each call of the contract is answered. */
export type Rooms = Readonly<Record<string, Room>>;

export const flagBytes = 8;
/** Places in the flags. */
export const stopped = 0;
export const allStopped = 1;

export type ToWorker =
  /** `inner`: what the front asks of a back, which is no call of the window's. `window`: whose call it is. */
  | {
      readonly kind: 'ask';
      readonly id: number;
      readonly name: string;
      readonly args: JsonText;
      readonly inner: boolean;
      readonly window: string;
    }
  /** The window is gone: what was begun for it stops. Told to the runs. */
  | { readonly kind: 'left'; readonly window: string }
  | { readonly kind: 'inner reply'; readonly id: number; readonly text: Uint8Array }
  | { readonly kind: 'close' };

export type FromWorker =
  /** A line for the terminal while it opens. */
  | { readonly kind: 'tell'; readonly line: string }
  /** Before `open`: there is no atlas, and this is why; or, null, later: there is one now. */
  | { readonly kind: 'missing'; readonly trouble: Trouble | null }
  /** `rooms`: by name, where each call is answered. The host has it from here, and loads no contract of its own, whose schemas take more memory than all else it does. */
  | { readonly kind: 'open'; readonly rooms: Rooms }
  | { readonly kind: 'not open'; readonly trouble: Trouble }
  /** A back has the atlas it reasons over, or could not read it: either way it answers at once from now on. */
  | { readonly kind: 'ready' }
  | { readonly kind: 'reply'; readonly id: number; readonly text: Uint8Array; readonly read: boolean }
  | { readonly kind: 'progress'; readonly id: number; readonly progress: Progress }
  | { readonly kind: 'inner'; readonly id: number; readonly name: string; readonly args: string }
  | { readonly kind: 'atlas changed' }
  | { readonly kind: 'bug'; readonly place: string; readonly error: unknown };

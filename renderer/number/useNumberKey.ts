import { keys } from '../look/keys.ts';
import { presses } from '../look/presses.ts';
import { useWindowKey } from '../look/useWindowKey.ts';

/** F2 asks for a part number, wherever one is; not while a question over the window waits for its answer. */
export const useNumberKey = (ask: () => void): void =>
  useWindowKey((event) => {
    // In a cell of a grid the same key writes.
    if (event.defaultPrevented || !presses(event, keys.everywhere.lines.number)) return;
    if (document.querySelector('dialog[open]') !== null) return;
    event.preventDefault();
    ask();
  });

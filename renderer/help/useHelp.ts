import { keys } from '../look/keys.ts';
import { presses } from '../look/presses.ts';
import { useWindowKey } from '../look/useWindowKey.ts';
import { hrefOf, type Screen } from '../route/route.ts';

const hrefTo = (at: string | null): string => hrefOf({ screen: 'help', at });

/** Marks an entry of the window's history: help was opened over the screen before it, so that going back closes it. */
interface Over {
  readonly helpOver: true;
}
const isOver = (state: unknown): boolean => (state as Partial<Over> | null)?.helpOver === true;

/** Opens help over the screen one is at. */
export const openHelp = (at: string | null): void => {
  window.location.hash = hrefTo(at);
  window.history.replaceState({ helpOver: true } satisfies Over, '');
};

/** Goes to another part of help. That is no step of its own: Back still leads to the screen. */
export const goWithinHelp = (at: string): void => {
  const { state } = window.history;
  window.location.replace(hrefTo(at));
  window.history.replaceState(state, '');
};

/** Closes help: the screen behind it is as it was. Where the window was opened at help there is nothing to go back to. */
export const leaveHelp = (behind: Screen): void => {
  if (isOver(window.history.state)) window.history.back();
  else window.location.replace(hrefOf(behind));
};

/** Whether what is pressed writes there: in a field, a cell of a grid, a choice. */
const writes = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable ||
    target.closest('textarea, select, [role="grid"], input:not([type="checkbox"], [type="radio"], [type="file"])') !== null);

/** F1 opens help wherever one is, also over a question that waits for its answer; so does ? where it is not written. */
export const useHelpKey = (open: boolean, opensAt: string | null): void =>
  useWindowKey((event) => {
    if (event.defaultPrevented || !presses(event, keys.everywhere.lines.help)) return;
    if (event.key === '?' && writes(event.target)) return;
    // Browsers have a help of their own on it.
    event.preventDefault();
    if (!open) openHelp(opensAt);
  });

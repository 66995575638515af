import { keys } from '../look/keys.ts';
import { at } from '../look/landmarks.ts';
import { presses } from '../look/presses.ts';
import { useWindowKey } from '../look/useWindowKey.ts';
import type { BenchActions } from './BenchContext.ts';

/** Ctrl or Cmd with S, Z, Shift+Z, Y; Alt with Page Down, Page Up. Inside a form that is being filled, undo stays the text field's own. */
export function useBenchKeys({ save, undo, redo, step }: BenchActions, unsaved: boolean): void {
  useWindowKey((event) => {
    const { save: keep, undo: back, redo: again, nextUnit, unitBefore } = keys.everywhere.lines;
    const within = (of: string) => event.target instanceof Element && event.target.closest(of) !== null;
    const inForm = within(`dialog, ${at('own undo')}`);
    if (presses(event, keep)) {
      event.preventDefault();
      if (unsaved) void save();
    } else if (!inForm && presses(event, again)) {
      event.preventDefault();
      redo();
    } else if (!inForm && presses(event, back)) {
      event.preventDefault();
      undo();
    } else if (!within('dialog') && (presses(event, nextUnit) || presses(event, unitBefore))) {
      event.preventDefault();
      step(presses(event, nextUnit) ? 1 : -1);
    }
  });
}

import { useEffect } from 'react';
import { keys } from '../look/keys.ts';
import { at } from '../look/landmarks.ts';
import { presses } from '../look/presses.ts';
import type { BenchActions } from './BenchContext.ts';

/** Ctrl or Cmd with S, Z, Shift+Z, Y. Inside a form that is being filled, undo stays the text field's own. */
export function useBenchKeys({ save, undo, redo }: BenchActions, unsaved: boolean): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const { save: keep, undo: back, redo: again } = keys.everywhere.lines;
      const inForm = event.target instanceof Element && event.target.closest(`dialog, ${at('own undo')}`) !== null;
      if (presses(event, keep)) {
        event.preventDefault();
        if (unsaved) void save();
      } else if (!inForm && presses(event, again)) {
        event.preventDefault();
        redo();
      } else if (!inForm && presses(event, back)) {
        event.preventDefault();
        undo();
      }
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [save, undo, redo, unsaved]);
}

import { useEffect } from 'react';
import { at } from '../look/landmarks.ts';
import type { BenchActions } from './BenchContext.ts';

/** Ctrl or Cmd with S, Z, Shift+Z, Y. Inside a form that is being filled, undo stays the text field's own. */
export function useBenchKeys({ save, undo, redo }: BenchActions, unsaved: boolean): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      const inForm = event.target instanceof Element && event.target.closest(`dialog, ${at('own undo')}`) !== null;
      if (key === 's') {
        event.preventDefault();
        if (unsaved) void save();
      } else if (!inForm && (key === 'y' || (key === 'z' && event.shiftKey))) {
        event.preventDefault();
        redo();
      } else if (!inForm && key === 'z') {
        event.preventDefault();
        undo();
      }
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [save, undo, redo, unsaved]);
}

import { useEffect } from 'react';

/** F2 asks for a part number, wherever one is; not while a question over the window waits for its answer. */
export const useNumberKey = (ask: () => void): void => {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'F2' || event.ctrlKey || event.altKey || event.metaKey || event.shiftKey) return;
      if (document.querySelector('dialog[open]') !== null) return;
      event.preventDefault();
      ask();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [ask]);
};

import { useEffectEvent, useLayoutEffect } from 'react';

/**
 * Hears the keys of the whole window, as long as what asks for it is drawn.
 *
 * Listened is from before it is painted, and until it is taken away: whoever sees what a key is for may press it at once. What hears is always what was drawn last,
 * so that no key is answered out of what stood there before.
 */
export const useWindowKey = (onKey: (event: KeyboardEvent) => void): void => {
  const hear = useEffectEvent(onKey);
  useLayoutEffect(() => {
    window.addEventListener('keydown', hear);
    return () => window.removeEventListener('keydown', hear);
  }, []);
};

import { useCallback, useState } from 'react';
import { recall, remember } from '../look/preference.ts';

const name = 'who looks';

/** Who is at this computer, as they wrote it last; saved with every entry of a case. Empty where nobody said. */
export const whoLooks = (): string => recall(name) ?? '';

export function useWho(): [string, (who: string) => void] {
  const [who, setWho] = useState(whoLooks);
  const say = useCallback((next: string) => {
    remember(name, next.trim() === '' ? null : next.trim());
    setWho(next);
  }, []);
  return [who, say];
}

import { useEffect, useState } from 'react';

/** Typing rests after so long without a key, ms: longer than a pause between two figures that are read off a plate. */
const rest = 900;

/** The text as it stood when it last rested, so that what is read aloud is not read at every key; null while there is none. */
export const useAtRest = (text: string | null): string | null => {
  const [rested, setRested] = useState<string | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setRested(text), rest);
    return () => clearTimeout(timer);
  }, [text]);
  return rested;
};

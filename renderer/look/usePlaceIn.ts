import { useMemo, useState } from 'react';
import { useAtlasChanges } from '../bridge/useAtlasChanges.ts';

/** Where one is in a long list: the first row shown, from 0. It begins anew, at `start`, where `list` is another list, or the atlas has changed. */
export const usePlaceIn = (list: unknown, start = 0): readonly [number, (from: number) => void] => {
  const of = `${useAtlasChanges()} ${JSON.stringify(list)}`;
  const [place, setPlace] = useState({ of, from: start });
  const from = place.of === of ? place.from : start;
  return useMemo(() => [from, (next: number) => setPlace({ of, from: next })] as const, [from, of]);
};

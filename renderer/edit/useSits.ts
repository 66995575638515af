import { useMemo } from 'react';
import type { ModelId } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { asId } from '../route/asId.ts';
import type { Sits } from './drafts.ts';

/** What a model lists, itself; not what may sit in it because it took the place of something listed. */
export const useSits = (model: string | null) => {
  const asked = useAsk('atlas.model', model === null ? null : { id: asId<ModelId>(model) });
  const page = latest(asked);
  const sits = useMemo<readonly Sits[] | null>(
    () =>
      page?.slots.flatMap(({ slot, parts }) =>
        parts.flatMap(({ part, role, inPlaceOf }) => (inPlaceOf === undefined ? [{ slot, part: part.id, role }] : [])),
      ) ?? null,
    [page],
  );
  return { asked, sits };
};

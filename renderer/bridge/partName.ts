import { useEffect, useState } from 'react';
import type { PartId } from '../../reasoner/index.ts';
import { desk } from './desk.ts';

const known = new Map<PartId, Promise<string>>();
desk.onAtlasChanged(() => known.clear());

/** A part's name by its id, asked once; the id itself when the desk cannot say. */
export function partName(part: PartId): Promise<string> {
  const before = known.get(part);
  if (before !== undefined) return before;
  const asked = desk.ask('atlas.part', { id: part }).then((reply) => {
    if (reply.ok) return reply.value.part.name;
    known.delete(part);
    return part;
  });
  known.set(part, asked);
  return asked;
}

/** The same where it is shown; the id until it is there. */
export function usePartName(part: PartId): string {
  const [name, setName] = useState<string>(part);
  useEffect(() => {
    let current = true;
    void partName(part).then((text) => current && setName(text));
    return () => {
      current = false;
    };
  }, [part]);
  return name;
}

import { useEffect, useState } from 'react';
import type { PartId } from '../../reasoner/index.ts';
import { partName } from './partName.ts';

/** A part's name as plain text, for buttons and table cells that lead nowhere. */
export function PartText({ part }: { readonly part: PartId }) {
  const [name, setName] = useState<string>(part);
  useEffect(() => {
    let current = true;
    void partName(part).then((text) => current && setName(text));
    return () => {
      current = false;
    };
  }, [part]);
  return <>{name}</>;
}

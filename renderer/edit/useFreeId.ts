import { useEffect, useState } from 'react';
import { idFrom } from '../../reasoner/plain/id-from.ts';
import { desk } from '../bridge/desk.ts';
import { useAtlasChanges } from '../bridge/useAtlasChanges.ts';

/** An id for a new entry of this name that no other has; empty until there is a name. `null` asks nothing. */
export const useFreeId = (list: string, name: string | null): string => {
  const wanted = name === null ? '' : idFrom(name);
  const [free, setFree] = useState('');
  const changes = useAtlasChanges();
  // biome-ignore lint/correctness/useExhaustiveDependencies: another atlas may have taken it.
  useEffect(() => {
    let current = true;
    if (wanted === '') {
      setFree('');
      return;
    }
    const ask = async () => {
      const ids = [wanted, ...Array.from({ length: 40 }, (_, at) => `${wanted}-${at + 2}`)];
      const reply = await desk.ask('edit.named', { of: ids.map((id) => ({ list, id })) });
      if (current) setFree(reply.ok ? (ids.find((_id, at) => reply.value[at] === null) ?? wanted) : wanted);
    };
    void ask();
    return () => {
      current = false;
    };
  }, [list, wanted, changes]);
  return free.startsWith(wanted) ? free : wanted;
};

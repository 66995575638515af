import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { desk } from '../bridge/desk.ts';
import { useAtlasChanges } from '../bridge/useAtlasChanges.ts';
import { CasesRun, type CasesStand, type NotMade } from './casesRun.ts';

/** How often the desk is asked how far it is, ms. */
const every = 150;
/** So few are judged without being asked for. */
const few = 8;

type Done = Extract<CasesStand, { readonly state: 'done' }>;

export interface CasesWouldNow {
  /** Of the change and the atlas as they are now, and of nothing before. */
  readonly stands: CasesStand;
  /** The last that was told of the change, or the atlas, as it stood before; null where what stands is told. */
  readonly before: Done | null;
  start(): void;
  stop(): void;
}

const none: CasesStand = { state: 'none' };

/**
 * What saved cases would be told of a change that is not made. A run is stopped once the change is another, the atlas is, or nobody looks any more.
 * @param of null where the change is not settled, or has faults
 * @param cases how many there are, once what else would follow of just this change is known
 */
export function useCasesWould(of: NotMade | null, cases: number | null): CasesWouldNow {
  const changes = useAtlasChanges();
  const key = useMemo(() => (of === null ? null : `${changes} ${JSON.stringify(of)}`), [of, changes]);
  const run = useMemo(() => new CasesRun(desk, () => new Promise((resolve) => setTimeout(resolve, every))), []);
  const [now, setNow] = useState<{ readonly key: string | null; readonly stands: CasesStand }>({ key: null, stands: none });
  const [last, setLast] = useState<{ readonly key: string; readonly done: Done } | null>(null);
  const told = last !== null && last.key === key && last.done.current ? last.done : null;

  // biome-ignore lint/correctness/useExhaustiveDependencies: another object that says the same is the same change.
  const change = useMemo(() => of, [key]);
  const start = useCallback(() => {
    if (change === null || key === null) return;
    void run.start(change, (stands) => {
      setNow({ key, stands });
      if (stands.state === 'done') setLast({ key, done: stands });
    });
  }, [run, change, key]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what runs is of the key it was begun with, and is let go of with it.
  useEffect(() => () => run.drop(), [run, key]);

  const wanted = key !== null && told === null && cases !== null && cases > 0 && cases <= few;
  const begun = useRef<string | null>(null);
  useEffect(() => {
    if (!wanted || begun.current === key) return;
    begun.current = key;
    start();
    // Let go of before it came to its end, it is begun anew where the same is looked at again.
    return () => {
      begun.current = null;
    };
  }, [wanted, key, start]);

  const stands = told ?? (now.key === key && now.stands.state !== 'done' ? now.stands : none);
  return { stands, before: told === null && last !== null ? last.done : null, start, stop: () => run.stop() };
}

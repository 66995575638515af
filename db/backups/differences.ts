import type { Difference, HeldKind, Named } from './backup.ts';
import type { HeldThing, Holdings } from './held.ts';

/** So many are named of each. */
const mostNamed = 200;

const inOrder: readonly HeldKind[] = ['cases', 'sheets', 'photographs', 'learners', 'courses', 'packs', 'other'];

/** What there would be instead of what there is, kind by kind. Pure. */
export const differencesBetween = (now: Holdings | null, then: Holdings): readonly Difference[] =>
  inOrder.flatMap((what): Difference[] => {
    const [here, there] = [now?.kinds.get(what) ?? nothing, then.kinds.get(what) ?? nothing];
    if (here.size === 0 && there.size === 0) return [];
    return [
      {
        what,
        now: here.size,
        afterwards: there.size,
        comesBack: named(there, (key) => !here.has(key)),
        goes: named(here, (key) => !there.has(key)),
        differs: named(there, (key, { version }) => here.has(key) && here.get(key)?.version !== version),
      },
    ];
  });

const nothing: ReadonlyMap<string, HeldThing> = new Map();

const named = (all: ReadonlyMap<string, HeldThing>, which: (key: string, thing: HeldThing) => boolean): Named => {
  const names = [...all].filter(([key, thing]) => which(key, thing)).map(([, { name }]) => name);
  return { count: names.length, names: names.sort().slice(0, mostNamed) };
};

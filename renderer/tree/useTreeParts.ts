import { useEffect, useState } from 'react';
import type { TreeParts } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { ModelId } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';

const atOnce = 60;

/** The parts of the models that are wanted now, and of all that were wanted before; some at a time. */
export function useTreeParts(wanted: readonly ModelId[]): {
  readonly parts: ReadonlyMap<string, TreeParts>;
  readonly trouble: Trouble | null;
} {
  const [parts, setParts] = useState<ReadonlyMap<string, TreeParts>>(new Map());
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const missing = wanted.filter((id) => !parts.has(id)).slice(0, atOnce);
  const key = missing.join(' ');
  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` stands for `missing`, which is a new list at every render.
  useEffect(() => {
    if (missing.length === 0) return;
    let current = true;
    void desk.ask('tree.parts', { models: [...missing] }).then((reply) => {
      if (!current) return;
      if (!reply.ok) return setTrouble(reply.trouble);
      setTrouble(null);
      setParts((before) => new Map([...before, ...reply.value.map((one) => [one.model, one] as const)]));
    });
    return () => {
      current = false;
    };
  }, [key]);
  return { parts, trouble };
}

import { useState } from 'react';
import type { CompletedBuild, Sheet, SheetId } from '../../reasoner/index.ts';
import { mostCompared } from '../../reasoner/plain/most-compared.ts';
import type { SearchStands } from './useCompletion.ts';

/** What is held side by side: the build on the bench, one that a search found, or a saved one. */
export type BuildColumn =
  | { readonly kind: 'bench' }
  | { readonly kind: 'variant'; readonly number: number; readonly build: CompletedBuild; readonly of: Sheet }
  | { readonly kind: 'saved'; readonly id: SheetId; readonly title: string };

export const columnKey = (column: BuildColumn): string => {
  switch (column.kind) {
    case 'bench':
      return 'bench';
    case 'variant':
      return `variant ${column.number}`;
    case 'saved':
      return `saved ${column.id}`;
  }
};

export interface SideBySide {
  /** Ticked variants in the order of the search's table, then the others as they were added. */
  readonly columns: readonly BuildColumn[];
  /** Every build the search found. */
  readonly variants: readonly (BuildColumn & { readonly kind: 'variant' })[];
  /** No more can be added. */
  readonly full: boolean;
  add(column: BuildColumn): void;
  takeOut(column: BuildColumn): void;
}

/** Ticks in the search's table and columns side by side are one thing. A new search ends with the ticks of the old; what else was added stays. */
export function useSideBySide(planned: boolean, stands: SearchStands | null): SideBySide {
  const [ticked, setTicked] = useState<readonly CompletedBuild[]>([]);
  // Until somebody adds or takes out, the build on the bench stands there alone, and makes room for variants.
  const [others, setOthers] = useState<readonly BuildColumn[] | null>(null);
  const variants =
    stands?.state === 'done'
      ? stands.completion.builds.map((build, i) => ({ kind: 'variant', number: i + 1, build, of: stands.of }) as const)
      : [];
  const chosen = variants.filter(({ build }) => ticked.includes(build));
  const rest = others ?? (planned && chosen.length === 0 ? [{ kind: 'bench' } as const] : []);
  const columns = [...chosen, ...rest].slice(0, mostCompared);
  const has = (column: BuildColumn): boolean => columns.some((each) => columnKey(each) === columnKey(column));
  return {
    columns,
    variants,
    full: columns.length >= mostCompared,
    add(column) {
      if (has(column) || columns.length >= mostCompared) return;
      if (column.kind === 'variant') setTicked([...ticked, column.build]);
      else setOthers([...rest, column]);
    },
    takeOut(column) {
      if (column.kind === 'variant') setTicked(ticked.filter((build) => build !== column.build));
      else setOthers(rest.filter((each) => columnKey(each) !== columnKey(column)));
    },
  };
}

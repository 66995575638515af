import type { ReplacementsTold, ReplacementTold } from '../../electron/bridge/verdict-calls.ts';
import type { NameId, Sheet, SlotId } from '../../reasoner/index.ts';
import { useAsk } from '../bridge/useAsk.ts';
import { inOneLine, PagedParts, usePaging } from './PagedParts.tsx';

interface Props {
  readonly sheet: Sheet;
  readonly name: NameId;
  /** Of the swap set. */
  readonly slots: readonly SlotId[];
  readonly choice: ReplacementsTold;
  /** In words, the slot. */
  readonly what: string;
}

/** S1: the parts that may go into a slot, those that drop in first; of the others what is to be done before they go on. */
export function SwapParts({ sheet, name, slots, choice, what }: Props) {
  const list = { sheet, name, slots, slot: choice.slot };
  const paging = usePaging(list);
  const asked = useAsk('verdict.replacements', choice.count === 0 ? null : { ...list, ...paging.rows });
  if (choice.count === 0) return <>no listed part is known to do it</>;
  return <PagedParts what={`parts for the ${what}`} count={choice.count} paging={paging} asked={asked} draw={byNeed} />;
}

/** Those that need the same stand together, as they come. */
const byNeed = (rows: readonly ReplacementTold[]) => {
  const groups: { readonly needs: readonly string[]; readonly rows: ReplacementTold[] }[] = [];
  for (const row of rows) {
    const last = groups.at(-1);
    if (last !== undefined && last.needs.join() === row.needs.join()) last.rows.push(row);
    else groups.push({ needs: row.needs, rows: [row] });
  }
  return groups.map((group) =>
    group.needs.length === 0 ? (
      <span key="drops in">{inOneLine(group.rows)}</span>
    ) : (
      <span key={group.rows[0]?.part} className="swap-need">
        {inOneLine(group.rows)}: {group.needs.join(' ')}
      </span>
    ),
  );
};

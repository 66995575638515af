import { Fragment, type ReactNode, useMemo, useRef, useState } from 'react';
import type { Page, PartTold } from '../../electron/bridge/verdict-calls.ts';
import { type Asked, latest } from '../bridge/useAsk.ts';
import { Pager } from '../look/Pager.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { usePlaceIn } from '../look/usePlaceIn.ts';
import { hrefOf } from '../route/route.ts';
import { sayWhole } from '../values/figures.ts';

/** So many are shown before more are asked for, and then so many at a time. */
const few = 12;
const many = 60;

interface Paging {
  /** Which rows to ask for. */
  readonly rows: { readonly from: number; readonly count: number };
  /** More than a handful was asked for. */
  readonly all: boolean;
  onAll(): void;
  onFrom(from: number): void;
}

/** Where one is in the parts of a list: at the handful, or at a page. Another `list` begins at its first row. */
export const usePaging = (list: unknown): Paging => {
  const [all, setAll] = useState(false);
  const [from, onFrom] = usePlaceIn(list);
  return useMemo(
    () => ({ rows: all ? { from, count: many } : { from: 0, count: few }, all, onAll: () => setAll(true), onFrom }),
    [all, from, onFrom],
  );
};

interface Props<Row> {
  /** In the plural, for the keys that page it. */
  readonly what: string;
  /** How many there are, as the verdict has it. */
  readonly count: number;
  readonly paging: Paging;
  /** The rows, asked for as `paging` has them. */
  readonly asked: Asked<Page<Row>>;
  draw(rows: readonly Row[]): ReactNode;
}

/** A list of parts the verdict only counts: a handful, then a page at a time. */
export function PagedParts<Row>({ what, count, paging, asked, draw }: Props<Row>) {
  const { rows, all, onAll, onFrom } = paging;
  const box = useRef<HTMLSpanElement>(null);
  const page = latest(asked);
  if (count === 0) return <span className="soft">none</span>;
  return (
    <span className="part-names" ref={box} tabIndex={-1} aria-busy={asked.state === 'waiting'}>
      {asked.state === 'trouble' && <TroubleNote lead="The parts could not be listed." trouble={asked.trouble} />}
      {page === null ? asked.state === 'waiting' && <span className="soft">…</span> : draw(page.rows)}
      {!all && count > few && (
        <button
          type="button"
          className="button plain no-print"
          onClick={() => {
            onAll();
            box.current?.focus();
          }}
        >
          {sayWhole(count - few)} more
        </button>
      )}
      {all && <Pager what={what} from={rows.from} size={many} count={page?.count ?? count} onFrom={onFrom} />}
    </span>
  );
}

/** Parts told with their names, each leading to its page in the atlas. */
export const inOneLine = (rows: readonly Pick<PartTold, 'part' | 'name'>[]): ReactNode =>
  rows.map((row, index) => (
    <Fragment key={row.part}>
      {index > 0 && ', '}
      <PartLink {...row} />
    </Fragment>
  ));

export function PartLink({ part, name }: Pick<PartTold, 'part' | 'name'>) {
  return <a href={hrefOf({ screen: 'atlas', page: { kind: 'part', id: part } })}>{name}</a>;
}

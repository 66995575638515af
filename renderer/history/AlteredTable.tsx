import type { AlteredSeen } from '../../db/answers.ts';
import { CellEntry, CellSays, CellWhat } from '../edit/AlteredCell.tsx';
import { sayMany } from '../values/sayMany.ts';

type Cell = Omit<AlteredSeen, 'said' | 'leadsTo'> & Partial<Pick<AlteredSeen, 'leadsTo'>>;
interface Props {
  readonly label: string;
  readonly cells: readonly Cell[];
  readonly inAll: number;
  /** What stands there today, where that is told. */
  readonly present?: (cell: Cell) => AlteredSeen['before'];
  readonly heads?: readonly [before: string, after: string];
  /** How many are shown. */
  readonly most?: number;
}

/** What a change altered, thing by thing: before and after. */
export function AlteredTable({ label, cells, inAll, present, heads: [before, after] = ['Before', 'After'], most = 200 }: Props) {
  return (
    <>
      <table className="page-table altered-table" aria-label={label}>
        <thead>
          <tr>
            <th scope="col">Entry</th>
            <th scope="col">What of it</th>
            <th scope="col">{before}</th>
            <th scope="col">{after}</th>
            {present !== undefined && <th scope="col">Today</th>}
          </tr>
        </thead>
        <tbody>
          {cells.slice(0, most).map((cell) => (
            <Row key={`${cell.pack} ${cell.list} ${cell.id} ${cell.field} ${cell.line}`} cell={cell} present={present} />
          ))}
        </tbody>
      </table>
      {inAll > Math.min(most, cells.length) && (
        <p className="small soft">and {sayMany(inAll - Math.min(most, cells.length), 'more', 'more')}</p>
      )}
    </>
  );
}

function Row({ cell, present }: { readonly cell: Cell; readonly present: Props['present'] }) {
  const says = (said: AlteredSeen['before'], than: AlteredSeen['before']) => (
    <span className={said === null ? 'soft' : undefined}>
      <CellSays cell={cell} said={said} than={than} />
    </span>
  );
  return (
    <tr>
      <th scope="row">
        <CellEntry cell={cell} />
      </th>
      <td>
        <CellWhat cell={cell} />
      </td>
      <td>{says(cell.before, cell.after)}</td>
      <td>{says(cell.after, cell.before)}</td>
      {present !== undefined && (
        <td>
          <CellSays cell={cell} said={present(cell)} />
        </td>
      )}
    </tr>
  );
}

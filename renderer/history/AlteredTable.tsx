import type { AlteredSeen } from '../../db/answers.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { useEntryName } from '../edit/entryNames.ts';
import { cellName, sayCell } from '../edit/sayCell.ts';
import { sayMany } from '../values/sayMany.ts';

type Cell = Omit<AlteredSeen, 'said'>;
interface Props {
  readonly label: string;
  readonly cells: readonly Cell[];
  readonly inAll: number;
  /** What stands there today, where that is told. */
  readonly present?: (cell: Cell) => AlteredSeen['before'];
  readonly heads?: readonly [before: string, after: string];
}

const most = 200;

/** What a change altered, thing by thing: before and after. */
export function AlteredTable({ label, cells, inAll, present, heads: [before, after] = ['Before', 'After'] }: Props) {
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
  const words = useWords();
  const name = useEntryName(cell.list === 'allowed' ? 'models' : cell.list, cell.id);
  const part = useEntryName('parts', cell.list === 'allowed' ? cell.field : null);
  return (
    <tr>
      <th scope="row">
        {name}
        {part !== '' && `, ${part}`}
      </th>
      <td>{cellName(words, cell)}</td>
      <td>{cell.before === null ? <span className="soft">nothing</span> : sayCell(words, cell, cell.before)}</td>
      <td>{cell.after === null ? <span className="soft">nothing</span> : sayCell(words, cell, cell.after)}</td>
      {present !== undefined && <td>{sayCell(words, cell, present(cell))}</td>}
    </tr>
  );
}

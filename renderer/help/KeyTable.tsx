import type { KeyGroup } from '../look/keys.ts';
import { SaidText } from './SaidText.tsx';

/** Keys with what they do, by where they do it. */
export function KeyTable({ groups }: { readonly groups: readonly KeyGroup[] }) {
  return (
    <table className="help-keys">
      <thead className="unseen">
        <tr>
          <th scope="col">Key</th>
          <th scope="col">What it does</th>
        </tr>
      </thead>
      {groups.map(({ head, lines }) => (
        <tbody key={head}>
          <tr>
            <th scope="rowgroup" colSpan={2} className="head">
              {head}
            </th>
          </tr>
          {Object.entries(lines).map(([line, said]) => (
            <tr key={line}>
              <th scope="row">
                <SaidText said={[{ keys: said }]} />
              </th>
              <td>{said.does}</td>
            </tr>
          ))}
        </tbody>
      ))}
    </table>
  );
}

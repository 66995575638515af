import type { Apart, ApartRow, Cell, FeatureId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { sayMeasure } from '../values/lengths.ts';
import { sayFact } from '../values/sayFact.ts';
import { sayMinutes } from './sayMinutes.ts';

interface Props {
  readonly answer: Apart;
  readonly picked: FeatureId | null;
  onPick(feature: FeatureId): void;
}

const bands = [
  { title: 'Tell some apart for certain', fold: false, holds: ({ separates }: ApartRow) => separates.includes('holds') },
  {
    title: 'Might tell, if the atlas knew more',
    fold: true,
    holds: ({ separates }: ApartRow) => !separates.includes('holds') && separates.includes('not known'),
  },
  { title: 'Differ, but could be read alike', fold: true, holds: ({ separates }: ApartRow) => separates.every((one) => one === 'fails') },
] as const;

/** The features that differ, cheapest to be seen first. */
export function ApartTable(props: Props) {
  return bands.map(({ title, fold, holds }) => {
    const rows = props.answer.rows.filter(holds);
    if (rows.length === 0) return null;
    const table = <Rows {...props} rows={rows} title={title} />;
    if (!fold) {
      return (
        <section key={title} className="apart-band">
          <h2 className="head">{title}</h2>
          {table}
        </section>
      );
    }
    return (
      <details key={title} className="apart-band">
        <summary>
          <span className="head">{title}</span> <span className="soft">{rows.length}</span>
        </summary>
        {table}
      </details>
    );
  });
}

function Rows({ answer, picked, onPick, rows, title }: Props & { readonly rows: readonly ApartRow[]; readonly title: string }) {
  const words = useWords();
  const many = answer.pairs.length > 1;
  return (
    <div className="apart-scroll">
      <table className="page-table apart-table" aria-label={title}>
        <thead>
          <tr>
            <th scope="col">Check</th>
            <th scope="col">Alone</th>
            {answer.subjects.map(({ ref, name }) => (
              <th key={`${ref.kind} ${ref.id}`} scope="col">
                {name}
              </th>
            ))}
            {many && <th scope="col">Tells</th>}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => {
            const feature = words.feature(row.feature);
            return (
              <tr key={row.feature} aria-selected={row.feature === picked}>
                <th scope="row">
                  <button type="button" className="row-pick" aria-pressed={row.feature === picked} onClick={() => onPick(row.feature)}>
                    {feature === undefined ? row.feature : `${words.slotName(feature.slot)}: ${feature.name}`}
                  </button>
                </th>
                <td className="small minutes">
                  {sayMinutes(row.minutes)}
                  <span className="soft"> {feature === undefined ? '' : words.stageName(feature.stage)}</span>
                </td>
                {row.cells.map((cell, i) => (
                  <td key={answer.subjects[i]?.ref.id ?? i}>
                    <CellText feature={row.feature} cell={cell} />
                  </td>
                ))}
                {many && <td className="small">{sayTells(answer, row)}</td>}
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

const mostSaid = 4;

/** What may be seen, each look once; many sizes as a range. */
function CellText({ feature: id, cell }: { readonly feature: FeatureId; readonly cell: Cell }) {
  const words = useWords();
  const feature = words.feature(id);
  const facts = cell.facts.map(({ fact }) => fact);
  const sizes = facts.flatMap((fact) => (fact.kind === 'measure' ? [fact.nominal] : []));
  const say = (size: number): string => sayMeasure(size, feature?.unit === 'deg' ? 'deg' : 'mm', words.unit);
  const said =
    sizes.length > 2
      ? `${sizes.length} sizes, ${say(Math.min(...sizes)).replace(/ (mm|in)$|°$/, '')} to ${say(Math.max(...sizes))}`
      : [...new Set(facts.slice(0, mostSaid).map((fact) => sayFact(feature, fact, words.unit)))].join(' / ');
  const more = sizes.length > 2 ? 0 : facts.length - mostSaid;
  return (
    <>
      {said}
      {more > 0 && <span className="soft"> and {more} more</span>}
      {cell.silent > 0 && (
        <span className="cell-silent">
          {said === '' ? '' : '; '}
          {cell.of === 0
            ? 'nothing listed'
            : cell.of === 1
              ? 'not known'
              : cell.silent === cell.of
                ? 'not known of any'
                : `not known of ${cell.silent} of ${cell.of}`}
        </span>
      )}
    </>
  );
}

/** How many pairs, and which it leaves where these are few. */
const sayTells = (answer: Apart, { separates }: ApartRow): string => {
  const left = separates.flatMap((truth, pair) => (truth === 'holds' ? [] : [pair]));
  const told = separates.length - left.length;
  if (left.length === 0) return 'all';
  const names = left.map((pair) => (answer.pairs[pair] ?? [0, 0]).map((one) => answer.subjects[one]?.name ?? '').join(' and '));
  return `${told} of ${separates.length} pairs${left.length <= 2 ? `, not ${names.join(', nor ')}` : ''}`;
};

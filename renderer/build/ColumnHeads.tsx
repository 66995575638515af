/** What a column is called: over words, over figures, or for who hears the page alone. */
export type ColumnHead = string | { readonly figures: string } | { readonly unseen: string };

/** The heads of a table, in their order; figures stand at the right. */
export function ColumnHeads({ of }: { readonly of: readonly ColumnHead[] }) {
  return (
    <thead>
      <tr>
        {of.map((head) =>
          typeof head === 'string' ? (
            <th key={head} scope="col">
              {head}
            </th>
          ) : 'figures' in head ? (
            <th key={head.figures} scope="col" className="number">
              {head.figures}
            </th>
          ) : (
            <th key={head.unseen} scope="col">
              <span className="unseen">{head.unseen}</span>
            </th>
          ),
        )}
      </tr>
    </thead>
  );
}

import type { ChangeMade } from '../../db/answers.ts';
import { hrefOf } from '../route/route.ts';
import { sayCounts } from './sayCounts.ts';

/** What was made of the table before, and where it is seen. */
export function MadeNote({ made }: { readonly made: ChangeMade & { readonly source: string } }) {
  return (
    <section className="table-made" aria-label="Brought in">
      <p role="status">
        {made.change === null ? (
          <b>There was nothing to change: the atlas says all of it already.</b>
        ) : (
          <>
            <b>Brought in as change {made.change}</b>, from {made.source}: {sayCounts(made.counts)}.
          </>
        )}
      </p>
      {made.change !== null && (
        <p>
          <a href={hrefOf({ screen: 'history', of: null })}>See it in the history, where it can be undone</a>
        </p>
      )}
    </section>
  );
}

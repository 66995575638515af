import { useState } from 'react';
import type { Odds } from '../../reasoner/index.ts';
import { AssumptionsForm } from './AssumptionsForm.tsx';
import { ChanceBar } from './Chance.tsx';
import { LikelyParts } from './LikelyParts.tsx';
import { sayAsAmong, sayBits, sayHowManyAlike, sayOdds, sayShare } from './oddsWords.ts';
import type { OddsHeld } from './useOdds.ts';

interface Props {
  readonly odds: Odds;
  readonly held: OddsHeld;
  readonly absent: ReadonlySet<string>;
}

/** What the unit most likely is: its name, what it was built as, and what sits in each slot, with what the odds take for granted. */
export function MostLikely({ odds, held, absent }: Props) {
  return (
    <section className="block" id="next-likely" tabIndex={-1} aria-labelledby="next-likely-title">
      <h2 id="next-likely-title" className="head">
        What it most likely is
      </h2>
      <p className="odds-note">
        Odds put suggestions in order and do nothing else. No status rests on them: what stands, is open or is ruled out follows from the
        entries alone.
      </p>
      <AssumptionsForm assumptions={odds.assumptions} held={held} />
      <ChanceTable
        title="Its honest name, if every part were known"
        rows={odds.names.map(({ names, text, chance }) => ({ key: names.join() || text, text, chance }))}
        alike={odds.namesAlike}
        rest={odds.namesRest}
        restName="any other name"
      />
      <p className="small soft">
        Uncertainty about the name: {sayBits(odds.bits)} bits, {sayAsAmong(odds.bits)}.
      </p>
      <ChanceTable
        title="What it was built as, before anything was swapped"
        rows={odds.built.map(({ model, text, chance }) => ({ key: model, text, chance }))}
        alike={odds.builtAlike}
        rest={odds.builtRest}
        restName="any other model"
      />
      <h3 className="head likely-head">What sits in each slot</h3>
      <div className="slot-odds-list">
        {odds.slots.map((slot) => (
          <LikelyParts key={slot.slot} odds={slot} absent={absent.has(slot.slot)} />
        ))}
      </div>
    </section>
  );
}

interface Row {
  readonly key: string;
  readonly text: string;
  readonly chance: number;
}

const rowsShown = 4;

interface ChanceTableProps {
  readonly title: string;
  readonly rows: readonly Row[];
  /** How many, listed or not, are as likely as the first row. */
  readonly alike: number;
  readonly rest: number;
  readonly restName: string;
}

function ChanceTable(props: ChanceTableProps) {
  const [all, setAll] = useState(false);
  // Rows that are equally likely are not parted: none of them would be the likelier for being shown.
  const few = Math.max(rowsShown, props.alike);
  const shown = all ? props.rows : props.rows.slice(0, few);
  const hidden = props.rows.slice(shown.length).reduce((sum, { chance }) => sum + chance, 0);
  const rest = props.rest + hidden;
  return (
    <table className="chances">
      <caption className="head">
        {props.title} {props.alike > 1 && <span className="alike-note">{sayHowManyAlike(props.alike, props.rows.length)}</span>}
      </caption>
      <thead className="unseen">
        <tr>
          <th scope="col">What</th>
          <th scope="col">Share, drawn</th>
          <th scope="col">Odds</th>
          <th scope="col">Share</th>
        </tr>
      </thead>
      <tbody>
        {shown.map((row) => (
          <ChanceRow key={row.key} text={row.text} chance={row.chance} />
        ))}
        {rest > 0.0005 && <ChanceRow text={props.restName} chance={rest} rest />}
      </tbody>
      {props.rows.length > few && (
        <tfoot className="no-print">
          <tr>
            <td colSpan={4}>
              <button type="button" className="button plain" aria-expanded={all} onClick={() => setAll(!all)}>
                {all ? 'Fewer' : `${props.rows.length - few} more`}
              </button>
            </td>
          </tr>
        </tfoot>
      )}
    </table>
  );
}

function ChanceRow({ text, chance, rest = false }: { readonly text: string; readonly chance: number; readonly rest?: boolean }) {
  return (
    <tr className={rest ? 'soft' : undefined}>
      <th scope="row">{text}</th>
      <td className="bar-cell">
        <ChanceBar chance={chance} />
      </td>
      <td className="chance">{sayOdds(chance)}</td>
      <td className="chance-share">{sayShare(chance)}</td>
    </tr>
  );
}

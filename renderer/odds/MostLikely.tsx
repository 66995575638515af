import { useState } from 'react';
import type { IfRight, IfWrong, Odds } from '../../reasoner/index.ts';
import { useOpenEntry } from '../bench/useOpenEntry.ts';
import { AssumptionsForm } from './AssumptionsForm.tsx';
import { ChanceBar } from './Chance.tsx';
import { LikelyParts } from './LikelyParts.tsx';
import { sayAsAmong, sayHowManyAlike, sayOdds, sayShare } from './oddsWords.ts';
import type { OddsHeld } from './useOdds.ts';

interface Props {
  readonly odds: Odds;
  readonly held: OddsHeld;
  readonly absent: ReadonlySet<string>;
}

/** What the unit most likely is: if every entry is right, and how likely it is that one is wrong, and which; with what the odds take for granted. */
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
      <p className="small soft">Whether the entries are right or not, the name is {sayAsAmong(odds.bits)}.</p>
      {odds.ifRight === null ? (
        <p>Under what the odds take for granted the entries cannot all be right.</p>
      ) : (
        <EveryEntryRight right={odds.ifRight} absent={absent} />
      )}
      {odds.ifWrong !== null && <SomeEntryWrong wrong={odds.ifWrong} />}
    </section>
  );
}

function EveryEntryRight({ right, absent }: { readonly right: IfRight; readonly absent: ReadonlySet<string> }) {
  return (
    <section className="if-right" aria-labelledby="if-right-title">
      <h3 id="if-right-title" className="if-title">
        If every entry is right <span className="alike-note">{sayOdds(right.chance)}</span>
      </h3>
      {right.names.length === 0 ? (
        <p>Of the names the entries do not rule out none is likely.</p>
      ) : (
        <ChanceTable
          title="Its honest name, if every part were known"
          rows={right.names.map(({ names, text, chance }) => ({ key: names.join() || text, text, chance }))}
          alike={right.namesAlike}
          rest={right.namesRest}
          restName="any other name"
        />
      )}
      <ChanceTable
        title="What it was built as, before anything was swapped"
        rows={right.built.map(({ model, text, chance }) => ({ key: model ?? 'no listed model', text, chance }))}
        alike={right.builtAlike}
        rest={right.builtRest}
        restName="any other model"
      />
      <h4 className="head likely-head">What sits in each slot</h4>
      <div className="slot-odds-list">
        {right.slots.map((slot) => (
          <LikelyParts key={slot.slot} odds={slot} absent={absent.has(slot.slot)} />
        ))}
      </div>
    </section>
  );
}

function SomeEntryWrong({ wrong }: { readonly wrong: IfWrong }) {
  const openEntry = useOpenEntry();
  const [first] = wrong.names;
  return (
    <section className="if-wrong" id="next-wrong" tabIndex={-1} aria-labelledby="if-wrong-title">
      <h3 id="if-wrong-title" className="if-title">
        If an entry is wrong <span className="alike-note">{sayOdds(wrong.chance)}</span>
      </h3>
      <p className="small soft">Read wrong, written down wrong, or seen of a part that is not as the atlas has it.</p>
      <ol className="suspects" aria-label="Which entry is wrong, the likeliest first">
        {wrong.entries.map(({ observation, slot, feature, text, chance }) => (
          <li key={observation}>
            <span>{text}</span>
            <ChanceBar chance={chance} />
            <span className="chance-share">{sayShare(chance)}</span>
            <button type="button" className="button plain no-print" onClick={() => openEntry(slot, feature)}>
              Read it again
            </button>
          </li>
        ))}
      </ol>
      {first !== undefined && (
        <p>
          Then it is most likely: {first.text} <span className="chance-share">{sayShare(first.chance)}</span>
          {first.ruledOutNow && '. The entries as they stand rule that out'}.
        </p>
      )}
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

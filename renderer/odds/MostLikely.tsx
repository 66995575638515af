import { useState } from 'react';
import type { IfRight, IfWrong, Odds } from '../../reasoner/index.ts';
import { useOpenEntry } from '../bench/useOpenEntry.ts';
import { AssumptionsForm } from './AssumptionsForm.tsx';
import { ChanceBar } from './Chance.tsx';
import { LikelyParts } from './LikelyParts.tsx';
import { sayAsAmong, sayHowManyAlike, sayShare } from './oddsWords.ts';
import type { OddsHeld } from './useOdds.ts';

interface Props {
  readonly odds: Odds;
  readonly held: OddsHeld;
  readonly absent: ReadonlySet<string>;
}

/** What the unit most likely is: if every entry is right, and how likely it is that one is wrong, and which; with what the odds take for granted. */
export function MostLikely({ odds, held, absent }: Props) {
  return (
    <>
      <p className="odds-note">
        These odds put the checks in order and do nothing else. What stands, is open or is ruled out follows from the entries alone. With
        every slip allowed for, the name is {sayAsAmong(odds.bits)}.
      </p>
      {odds.ifRight === null ? (
        <p>By what the odds take for granted, the entries cannot all be right.</p>
      ) : (
        <EveryEntryRight right={odds.ifRight} absent={absent} />
      )}
      {odds.ifWrong !== null && <SomeEntryWrong wrong={odds.ifWrong} />}
      <AssumptionsForm assumptions={odds.assumptions} held={held} />
    </>
  );
}

function EveryEntryRight({ right, absent }: { readonly right: IfRight; readonly absent: ReadonlySet<string> }) {
  return (
    <section className="if-right" aria-labelledby="if-right-title">
      <h3 id="if-right-title" className="if-title">
        If every entry is right, <span className="alike-note">which is {sayShare(right.chance)} likely</span>
      </h3>
      <p>{right.among.sentence}</p>
      {right.names.length > 0 && (
        <ChanceTable
          title="Its honest name, if every part were known"
          rows={right.names.map(({ names, text, chance, stands }) => ({
            key: names.join() || text,
            text,
            chance,
            now: names.length === 0 ? '' : stands ? 'stands' : 'open',
          }))}
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
        If an entry is wrong, <span className="alike-note">which is {sayShare(wrong.chance)} likely</span>
      </h3>
      <p className="small soft">It was read wrong, written down wrong, or seen on a part that is not as the atlas has it.</p>
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
  /** What the verdict says of it now. */
  readonly now?: string;
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
          <th scope="col">Now</th>
          <th scope="col">Share</th>
        </tr>
      </thead>
      <tbody>
        {shown.map((row) => (
          <ChanceRow key={row.key} text={row.text} chance={row.chance} now={row.now ?? ''} />
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

interface ChanceRowProps {
  readonly text: string;
  readonly chance: number;
  readonly now?: string;
  readonly rest?: boolean;
}

function ChanceRow({ text, chance, now = '', rest = false }: ChanceRowProps) {
  return (
    <tr className={rest ? 'soft' : undefined}>
      <th scope="row">{text}</th>
      <td className="bar-cell">
        <ChanceBar chance={chance} />
      </td>
      <td className="chance">{now}</td>
      <td className="chance-share">{sayShare(chance)}</td>
    </tr>
  );
}

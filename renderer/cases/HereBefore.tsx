import { useMemo } from 'react';
import type { HereBefore as Before } from '../../db/answers.ts';
import type { Sheet } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { hrefOf } from '../route/route.ts';
import { sayMany } from '../values/sayMany.ts';
import { sayDay } from './sayCase.ts';

/** How long typing may settle before the desk is asked, ms. */
const settle = 250;

/**
 * That this unit, or its plate, was here before: the cases that have a number of its own. It is said calmly, and nothing is concluded: one plate on two units can be a copied
 * plate, and a unit that comes back is the same unit.
 */
export function HereBefore({ sheet }: { readonly sheet: Sheet }) {
  const asked = useMemo(() => numbersOnly(sheet), [sheet]);
  const before = latest(useAsk('cases.before', asked === null ? null : { sheet: asked }, settle));
  if (asked === null || before === null || before.same.length === 0) return null;
  const serial = before.same.filter(({ by }) => by.says === 'serial number');
  const part = before.same.filter(({ by }) => by.says === 'part number');
  return (
    <div className="here-before" role="status">
      {serial.length > 0 && (
        <p>
          This unit, or its plate, was here before: <Cases cases={serial} />. {serial.length === 1 ? 'Both have' : 'All of them have'} the
          serial number {serial[0]?.by.text}.
        </p>
      )}
      {part.length > 0 && (
        <p>
          The part number {part[0]?.by.text} is also on the plate of <Cases cases={part} />
          {before.more > 0 && ` and ${sayMany(before.more, 'earlier case')}`}. Every unit of its kind has it; only a serial number says
          whether it is the same unit.
        </p>
      )}
    </div>
  );
}

function Cases({ cases }: { readonly cases: Before['same'] }) {
  return cases.map(({ sheet, number, openedOn, title }, index) => (
    <span key={sheet}>
      {index === 0 ? '' : ', '}
      <a href={hrefOf({ screen: 'case', sheet })}>case {number}</a> of {sayDay(openedOn)}
      {title === '' ? '' : `, ${title}`}
    </span>
  ));
}

/** What is asked about: letters seen, and the serial number. Typing in anything else asks nothing anew; null where there is nothing to ask. */
const numbersOnly = ({ id, kind, serial, observations }: Sheet): Sheet | null => {
  const seen = observations.flatMap(({ note: _note, instrument: _instrument, ...one }) =>
    one.value.kind === 'mark' && one.value.text !== null && one.sure.kind === 'seen' ? [one] : [],
  );
  if (seen.length === 0 && serial === undefined) return null;
  const bare = { id, title: '', story: '', kind, claimed: null, claimedMaker: null, observations: seen, absent: [], chosen: {} };
  return serial === undefined ? bare : { ...bare, serial };
};

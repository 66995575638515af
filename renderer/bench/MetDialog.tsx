import { useState } from 'react';
import type { OpenedSheet } from '../../db/answers.ts';
import type { Side } from '../../reasoner/plain/fields-merged.ts';
import { sheetsMerged } from '../../reasoner/plain/sheets-merged.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { BothDialog } from '../look/BothDialog.tsx';
import { sayMany } from '../values/sayMany.ts';
import { sayWhen } from '../values/sayWhen.ts';
import { sayDifference } from './sayDifference.ts';
import type { Met, Unit } from './unit.ts';
import type { Settled } from './useSaving.ts';

interface Props {
  readonly met: Met;
  readonly unit: Unit;
  onSettle(settled: Settled): void;
}

/** The sheet was saved or removed elsewhere since it was opened here: whose and when, what differs, and what shall be. */
export function MetDialog({ met, unit, onSettle }: Props) {
  return met.how === 'removed' ? (
    <RemovedDialog sample={met.sample} unit={unit} onSettle={onSettle} />
  ) : (
    <ChangedDialog theirs={met.theirs} unit={unit} onSettle={onSettle} />
  );
}

function RemovedDialog({ sample, unit, onSettle }: { readonly sample: OpenedSheet | null } & Pick<Props, 'unit' | 'onSettle'>) {
  const { title } = unit.history.present;
  const number = unit.kept?.number ?? null;
  return (
    <AskDialog
      title="This sheet was removed elsewhere"
      onLeave={() => onSettle({ how: 'later' })}
      choices={[{ label: 'Save it as a new case', tone: 'usual', run: () => onSettle({ how: 'save anew', sample }) }]}
    >
      <p>
        <b>{title === '' ? 'The untitled unit' : title}</b>
        {number === null ? '' : `, case ${number},`} was removed from the shelf since it was opened here, with its history and its
        photographs. What is on the bench is still here and is not saved.
      </p>
      <p>
        The number of its case is kept and not given again: saved now, the sheet becomes a new case under the next number, and its history
        begins anew.
      </p>
    </AskDialog>
  );
}

function ChangedDialog({ theirs, unit, onSettle }: { readonly theirs: OpenedSheet } & Pick<Props, 'unit' | 'onSettle'>) {
  const words = useWords();
  const [decided, setDecided] = useState<ReadonlyMap<string, Side>>(new Map());
  const mine = unit.history.present;
  const { merged, differences, disagreements } = sheetsMerged(unit.kept?.sheet ?? null, mine, theirs.sheet, decided);
  const { saved } = theirs;
  const who = saved === null || saved.who === '' ? 'Somebody who did not say who' : saved.who;
  const left = disagreements.length;
  return (
    <BothDialog
      title="This sheet was changed elsewhere"
      told={
        <>
          {saved === null ? (
            'A sample of this id stands on the shelf.'
          ) : (
            <>
              <b>{who}</b> saved it {sayWhen(saved.at)}, after it was opened here. Nothing was overwritten.
            </>
          )}{' '}
          {sayMany(differences.length, 'thing differs', 'things differ')}:
        </>
      }
      rows={differences.map((one) => sayDifference(one, words))}
      heads={['Here', saved === null || saved.who === '' ? 'There' : capital(saved.who)]}
      decided={decided}
      onDecide={(key, side) => setDecided(new Map(decided).set(key, side))}
      hint={
        left === 0
          ? 'Saving both keeps everything marked, from here and from there.'
          : `${sayMany(left, 'thing was', 'things were')} changed on both sides: choose which to keep, then both can be saved together.`
      }
      both="Save both together"
      waits={left > 0}
      onBoth={() => onSettle({ how: 'save', sheet: merged, over: theirs })}
      onMine={() => onSettle({ how: 'save', sheet: mine, over: theirs })}
      onTake={() => onSettle({ how: 'take theirs', theirs })}
      onLater={() => onSettle({ how: 'later' })}
    />
  );
}

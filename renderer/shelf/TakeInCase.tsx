import { useState } from 'react';
import type { ParcelSeen } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { saySharedLetter } from '../../reasoner/plain/shared-letter.ts';
import { newSheetId } from '../bench/sheetEdits.ts';
import { desk } from '../bridge/desk.ts';
import { type HandedParcel, handInParcel } from '../cases/parcelFile.ts';
import { sayDay, sayInstant } from '../cases/sayCase.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { FileChooser } from '../look/FileChooser.tsx';
import { StatusMark } from '../look/StatusMark.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { goTo } from '../route/route.ts';
import { sayMany } from '../values/sayMany.ts';
import { titleOf } from './useShelf.ts';

/** Takes in a case out of the one file that holds it: looked at first, then asked about, and then put in whole. */
export function TakeInCase({ who }: { readonly who: string }) {
  const [looking, setLooking] = useState(false);
  const [handed, setHanded] = useState<HandedParcel | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);

  const look = async (picked: File) => {
    setTrouble(null);
    setLooking(true);
    const found = await handInParcel(picked);
    setLooking(false);
    if (found.ok) setHanded(found.value);
    else setTrouble(found.trouble);
  };
  const takeIn = async (as: SheetId | null) => {
    if (handed === null) return;
    setHanded(null);
    const taken = await desk.ask('parcel.takeIn', { token: handed.token, as, who });
    if (taken.ok) goTo({ screen: 'case', sheet: taken.value.sheet });
    else setTrouble(taken.trouble);
  };

  return (
    <>
      <FileChooser
        label="Case in one file"
        of={{ accept: '.zip,application/zip' }}
        disabled={looking}
        onChosen={([picked]) => {
          if (picked !== undefined) void look(picked);
        }}
      >
        {looking ? 'Looking at it…' : 'Take in a case…'}
      </FileChooser>
      {trouble !== null && (
        <div className="take-in-trouble">
          <TroubleNote lead="The case was not taken in." trouble={trouble} />
        </div>
      )}
      {handed !== null && <TakeInQuestion handed={handed} onTakeIn={(as) => void takeIn(as)} onLeave={() => setHanded(null)} />}
    </>
  );
}

interface QuestionProps {
  readonly handed: HandedParcel;
  onTakeIn(as: SheetId | null): void;
  onLeave(): void;
}

function TakeInQuestion({ handed: { name, seen }, onTakeIn, onLeave }: QuestionProps) {
  const { here, elsewhere } = seen;
  const shared = elsewhere === null ? null : <p className="trouble">{saySharedLetter(name, elsewhere)}</p>;
  if (here === null)
    return (
      <AskDialog title="Take this case in?" onLeave={onLeave} choices={[{ label: 'Take it in', tone: 'main', run: () => onTakeIn(null) }]}>
        <Told one={seen} savedAt={seen.savedAt} />
        <p>It gets this shop’s next number; the number it had stays with it. Its history and photographs come with it as they are.</p>
        {shared}
      </AskDialog>
    );
  return (
    <AskDialog
      title="This case is here already"
      onLeave={onLeave}
      choices={[{ label: 'Take it in as a case of its own', tone: 'main', run: () => onTakeIn(newSheetId()) }]}
    >
      <p>The one here is not written over. Taken in beside it, the one in the file gets a number of its own.</p>
      <div className="both-cases">
        <section aria-label="In the file">
          <h3>In the file</h3>
          <Told one={seen} savedAt={seen.savedAt} />
        </section>
        <section aria-label="Here">
          <h3>Here</h3>
          <Told one={here} savedAt={here.savedAt} />
        </section>
      </div>
      {shared}
    </AskDialog>
  );
}

type ToldOf = Pick<ParcelSeen, 'number' | 'title' | 'openedOn' | 'customer' | 'claimed' | 'status' | 'honest' | 'observations' | 'photos'>;

function Told({ one, savedAt }: { readonly one: ToldOf; readonly savedAt: string | null }) {
  return (
    <div className="told-case">
      <p>
        {one.number} <b>{titleOf(one.title)}</b>
        {one.customer === '' ? '' : `, for ${one.customer}`}
      </p>
      <p className="small">
        opened {sayDay(one.openedOn)}
        {savedAt === null ? '' : `, saved ${sayInstant(savedAt)}`} · {sayMany(one.observations, 'entry', 'entries')} ·{' '}
        {sayMany(one.photos, 'photograph')}
      </p>
      <p className="small">
        {one.claimed !== null && (
          <>
            offered as <q>{one.claimed}</q> {one.status !== null && <StatusMark status={one.status} />}{' '}
          </>
        )}
        {one.honest.join(' or ')}
      </p>
    </div>
  );
}

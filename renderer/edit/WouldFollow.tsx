import { useMemo } from 'react';
import type { ChangeSeen, Edit } from '../../db/answers.ts';
import type { CallArgs, CallResult } from '../../electron/bridge/contract.ts';
import type { JointId, PartId } from '../../reasoner/index.ts';
import { latest, useAsk, useSettled } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { CasesWould } from '../told/CasesWould.tsx';
import { sayMany } from '../values/sayMany.ts';
import { useEntryName } from './entryNames.ts';

type Would = NonNullable<CallResult<'changes.would'>>;
const most = 8;

/** What would be concluded otherwise of edits: names, how parts meet, and what saved cases would be told. Asked once the edits have settled, since the whole atlas is made anew for it. */
export function WouldFollow({ edits, seen }: { readonly edits: readonly Edit[]; readonly seen: ChangeSeen | null }) {
  const wants = seen !== null && seen.faults.length === 0 && seen.cellsInAll > 0;
  const args = useMemo(() => ({ of: { edits } }) as CallArgs<'changes.would'>, [edits]);
  return <WouldFollowOf args={wants ? args : null} pause={900} />;
}

/** The same of edits or of a change undone; null where there is nothing, or nothing settled. */
export function WouldFollowOf({ args, pause = 0 }: { readonly args: CallArgs<'changes.would'> | null; readonly pause?: number }) {
  const asked = useAsk('changes.would', args, pause);
  const would = latest(asked);
  const settled = useSettled(asked, args);
  return (
    <section>
      {args !== null && (
        <>
          <h3>What would follow</h3>
          {asked.state === 'trouble' ? (
            <p className="small soft">{asked.trouble.sentence}</p>
          ) : would === null || asked.state !== 'answered' ? (
            <p className="small soft">Working it out…</p>
          ) : (
            <Followed would={would} />
          )}
        </>
      )}
      <CasesWould of={args?.of ?? null} cases={settled?.cases ?? null} />
    </section>
  );
}

function Meeting(props: { readonly joint: JointId; readonly part: PartId; readonly more: number; readonly fewer: number }) {
  const words = useWords();
  const name = useEntryName('parts', props.part);
  const says = [
    ...(props.more === 0 ? [] : [`${sayMany(props.more, 'more part')} would go with it`]),
    ...(props.fewer === 0 ? [] : [`${sayMany(props.fewer, 'part')} would go with it no more`]),
  ];
  return (
    <p className="small">
      {words.jointName(props.joint)}, {name}: {says.join('; ')}.
    </p>
  );
}

function Followed({ would: { names, meetings } }: { readonly would: Would }) {
  const of = (how: Would['names'][number]['how']) => names.filter((name) => name.how === how);
  const lines = (
    [
      ['Names it would add', of('new')],
      ['Names that would ask for other parts', of('altered')],
      ['Names that would be gone', of('gone')],
    ] as const
  ).filter(([, some]) => some.length > 0);
  if (lines.length === 0 && meetings.length === 0)
    return <p className="small">No name would ask for other parts, and no two parts would meet otherwise than now.</p>;
  return (
    <>
      {lines.map(([head, some]) => (
        <p key={head} className="small">
          {head}:{' '}
          {some
            .slice(0, most)
            .map(({ text }) => text)
            .join('; ')}
          {some.length > most && `; and ${some.length - most} more`}.
        </p>
      ))}
      {meetings.slice(0, most).map(({ joint, part, more, fewer }) => (
        <Meeting key={`${joint} ${part}`} joint={joint} part={part} more={more.length} fewer={fewer.length} />
      ))}
      {meetings.length > most && <p className="small soft">and {meetings.length - most} more joints</p>}
    </>
  );
}

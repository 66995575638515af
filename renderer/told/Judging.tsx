import { sayMany } from '../values/sayMany.ts';

interface Props {
  readonly judged: number;
  /** 0 where it is not known yet. */
  readonly of: number;
}

/** How far the judging of cases is. */
export function Judging({ judged, of }: Props) {
  return (
    <>
      <span role="status">{of === 0 ? 'Judging…' : `${judged} of ${sayMany(of, 'case')} judged`}</span>
      <progress aria-label="Cases judged" max={Math.max(1, of)} value={judged} />
    </>
  );
}

import type { PartId } from '../../reasoner/index.ts';
import type { NodeRef } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import { refRows } from './node-refs.ts';

/**
 * The line a part stands in, oldest first, itself in it: what it took the place of, in any number of steps, and what
 * took its place. Where two parts took the place of one, both are named, the nearer step first.
 */
export const supersessionOf = async (reader: Reader, part: PartId): Promise<NodeRef[]> =>
  await refRows(
    reader,
    'part',
    `with recursive
       older(n, step) as (select n, 0 from parts where id = ?1
         union select p.supersedes, o.step - 1 from older o join parts p on p.n = o.n where p.supersedes is not null),
       newer(n, step) as (select n, 0 from parts where id = ?1
         union select p.n, w.step + 1 from newer w join parts p on p.supersedes = w.n)
     select p.id, p.name from (select n, step from older union select n, step from newer) s join parts p on p.n = s.n
     order by s.step, p.position`,
    [part],
  );

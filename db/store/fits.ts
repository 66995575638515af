import type { Fit, FitVerdict, JointId, PartId, SlotId } from '../../reasoner/index.ts';
import type { FitsAnswer } from '../answers.ts';
import type { Connection } from '../driver/connection.ts';
import { noSuchNode, refOf } from './node-refs.ts';

/** The fit engine, handed in: `a` is the part on the joint's first port. */
export type JudgeFit = (joint: JointId, a: PartId, b: PartId) => Fit;

const order: Readonly<Record<FitVerdict, number>> = { 'drops in': 0, 'after work': 1, 'not known': 2, 'will not fit': 3 };

/**
 * What else a part fits: every part across each of its joints that does not fail there, joint by joint, those that drop in first.
 * Throws `not-found`.
 */
export const fitsOf = async (connection: Connection, part: PartId, judge: JudgeFit): Promise<FitsAnswer> => {
  const [self] = await connection.all<{ id: string; name: string }>('select id, name from parts where id = ?', [part]);
  if (self === undefined) return noSuchNode('part', part);
  const across = await connection.all<{ joint: JointId; side: 'a' | 'b'; slot: SlotId; id: PartId; name: string }>(
    `with sides(joint, side, own, other) as (
       select j.id, 'a', a.slot, b.slot from joints j join ports a on a.id = j.a join ports b on b.id = j.b
       union all select j.id, 'b', b.slot, a.slot from joints j join ports a on a.id = j.a join ports b on b.id = j.b)
     select s.joint, s.side, s.other as slot, o.id, o.name from parts p join sides s on s.own = p.slot join parts o on o.slot = s.other
     left join (select id, min(position) as position from pack_terms where kind = 'joint' group by id) k on k.id = s.joint
     where p.id = ? order by k.position, s.joint, o.pack, o.position`,
    [part],
  );
  const rank = new Map<JointId, number>();
  for (const { joint } of across) if (!rank.has(joint)) rank.set(joint, rank.size);
  const partners = across
    .map(({ joint, side, slot, id, name }) => ({
      joint,
      slot,
      part: refOf('part', { id, name }),
      fit: side === 'a' ? judge(joint, part, id) : judge(joint, id, part),
    }))
    .filter(({ fit }) => fit.verdict !== 'will not fit')
    .sort((a, b) => (rank.get(a.joint) ?? 0) - (rank.get(b.joint) ?? 0) || order[a.fit.verdict] - order[b.fit.verdict]);
  return { part: refOf('part', self), partners };
};

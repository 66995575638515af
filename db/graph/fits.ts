import type { Fit, FitVerdict, Joint, JointId, PartId, SlotId } from '../../reasoner/index.ts';
import type { FitsAnswer, NodeRef } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import type { FitEngine, KeptFinding } from './keep-fits.ts';
import { noSuchNode, refOf } from './node-refs.ts';

/** The fit engine, handed in: `a` is the part on the joint's first port. */
export type JudgeFit = (joint: JointId, a: PartId, b: PartId) => Fit;

const order: Readonly<Record<FitVerdict, number>> = { 'drops in': 0, 'after work': 1, 'not known': 2, 'will not fit': 3 };

/**
 * What else a part fits, from the fits kept: every part across each of its joints that does not fail there, joint by joint, those that drop in first.
 * Null where the fits kept are not this engine's of the atlas as it is. One statement, so that it is of one state by itself: a row for each joint,
 * with what is known of it written as JSON beforehand. Throws `not-found`.
 */
export const keptFitsOf = async (
  { all }: Pick<Reader, 'all'>,
  part: PartId,
  engine: Pick<FitEngine, 'edition'>,
): Promise<FitsAnswer | null> => {
  const rows = await all<KeptRow>(
    `select p.id, p.name, (select value from meta where key = 'fits') as kept, c.joint, c.side, j.rules, port.slot,
       '[' || case c.side when 'a' then ${fitsOn('a', 'b')} else ${fitsOn('b', 'a')} end || ']' as fits,
       case c.side when 'a' then ${partnersOn('a', 'b')} else ${partnersOn('b', 'a')} end as partners
     from parts p left join mates m on m.part = p.id left join matings c on c.n = m.mating left join joints j on j.id = c.joint
     left join ports port on port.id = case c.side when 'a' then j.b else j.a end
     where p.id = ? order by (select min(position) from pack_terms where kind = 'joint' and id = c.joint), c.joint`,
    [part],
  );
  const [self] = rows;
  if (self === undefined) return noSuchNode('part', part);
  if (self.kept !== engine.edition) return null;
  return {
    part: refOf('part', self),
    partners: inOrder(
      rows.flatMap(({ joint, side, slot, rules, fits, partners }) => {
        if (joint === null || fits === null) return [];
        const read = JSON.parse(rules) as Joint['rules'];
        const across = new Map(
          (JSON.parse(fits) as [number, FitVerdict, KeptFinding[]][]).map(([other, verdict, findings]) => [
            other,
            { verdict, findings: findings.map((finding, i) => ({ rule: read[i] as Joint['rules'][number], ...finding })) },
          ]),
        );
        return (JSON.parse(partners) as [number, PartId, string][]).map(([other, id, name]): Partner => {
          const { verdict, findings } = across.get(other) as Pick<Fit, 'verdict' | 'findings'>;
          const [a, b] = side === 'a' ? [part, id] : [id, part];
          return { joint, slot, part: refOf('part', { id, name }), fit: { joint, a, b, verdict, findings } };
        });
      }),
    ),
  };
};

/*
 * Each side by itself, so that the fits of a class are found by its number: over both sides at once SQLite goes through all fits there are.
 * Findings are put together as the texts they are.
 */
const fitsOn = (own: 'a' | 'b', other: 'a' | 'b'): string =>
  `(select group_concat('[' || f.${other} || ',"' || f.verdict || '",' || f.findings || ']') from fits f where f.${own} = c.n)`;
const partnersOn = (own: 'a' | 'b', other: 'a' | 'b'): string =>
  `(select json_group_array(json_array(x.mating, o.id, o.name) order by o.pack, o.position)
    from fits f cross join mates x on x.mating = f.${other} cross join parts o on o.id = x.part where f.${own} = c.n)`;

interface KeptRow {
  readonly id: string;
  readonly name: string;
  /** The edition of the engine the fits are kept by. */
  readonly kept: string | null;
  /** Null where no joint reads the part. */
  readonly joint: JointId | null;
  readonly side: 'a' | 'b';
  readonly slot: SlotId;
  readonly rules: string;
  /** Class across, verdict and findings, of each fit; null where there is none. */
  readonly fits: string | null;
  /** Class across, id and name, in the order of the atlas. */
  readonly partners: string;
}

type Partner = FitsAnswer['partners'][number];

/** Joints as they come; within a joint those that drop in first. */
const inOrder = (partners: readonly Partner[]): Partner[] => {
  const rank = new Map<JointId, number>();
  for (const { joint } of partners) if (!rank.has(joint)) rank.set(joint, rank.size);
  return [...partners].sort((a, b) => (rank.get(a.joint) ?? 0) - (rank.get(b.joint) ?? 0) || order[a.fit.verdict] - order[b.fit.verdict]);
};

interface Across {
  readonly joint: JointId;
  readonly side: 'a' | 'b';
  readonly slot: SlotId;
  readonly id: PartId;
  readonly name: string;
}

/** A part and every part across each of its joints, for an atlas whose fits are not kept. Throws `not-found`. */
export const acrossOf = async (reader: Reader, part: PartId): Promise<{ readonly self: NodeRef; readonly across: readonly Across[] }> => {
  const [self] = await reader.all<{ id: string; name: string }>('select id, name from parts where id = ?', [part]);
  if (self === undefined) return noSuchNode('part', part);
  const across = await reader.all<Across>(
    `with sides(joint, side, own, other) as (
       select j.id, 'a', a.slot, b.slot from joints j join ports a on a.id = j.a join ports b on b.id = j.b
       union all select j.id, 'b', b.slot, a.slot from joints j join ports a on a.id = j.a join ports b on b.id = j.b)
     select s.joint, s.side, s.other as slot, o.id, o.name from parts p join sides s on s.own = p.slot join parts o on o.slot = s.other
     left join (select id, min(position) as position from pack_terms where kind = 'joint' group by id) k on k.id = s.joint
     where p.id = ? order by k.position, s.joint, o.pack, o.position`,
    [part],
  );
  return { self: refOf('part', self), across };
};

/** What else a part fits, each pair judged now. */
export const judgedFitsOf = (
  part: PartId,
  { self, across }: { readonly self: NodeRef; readonly across: readonly Across[] },
  judge: JudgeFit,
): FitsAnswer => {
  const partners = across
    .map(({ joint, side, slot, id, name }) => ({
      joint,
      slot,
      part: refOf('part', { id, name }),
      fit: side === 'a' ? judge(joint, part, id) : judge(joint, id, part),
    }))
    .filter(({ fit }) => fit.verdict !== 'will not fit');
  return { part: self, partners: inOrder(partners) };
};

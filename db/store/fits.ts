import { and, eq } from 'drizzle-orm';
import type { Fit, FitVerdict, JointId, PartId, SlotId } from '../../reasoner/index.ts';
import type { FitsAnswer } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import * as t from '../schema.ts';
import { noSuchNode, refOf } from './node-refs.ts';

/** The fit engine, handed in: `a` is the part on the joint's first port. */
export type JudgeFit = (joint: JointId, a: PartId, b: PartId) => Fit;

const order: Readonly<Record<FitVerdict, number>> = { 'drops in': 0, 'after work': 1, 'not known': 2, 'will not fit': 3 };

/**
 * What else a part fits, from the fits kept: every part across each of its joints that does not fail there, joint by joint, those that drop in first.
 * Throws `not-found`.
 */
export const keptFitsOf = async (reader: Reader, part: PartId): Promise<FitsAnswer> => {
  const self = await selfOf(reader, part);
  const rows = await reader.all<KeptRow>(
    `with own(n, joint, side) as (
       select g.n, g.joint, g.side from parts p join mates m on m.part = p.n join matings g on g.n = m.mating where p.id = ?),
     across(joint, side, a, b, other, verdict) as (
       select own.joint, 'a', f.a, f.b, f.b, f.verdict from own join fits f on own.side = 'a' and f.a = own.n
       union all select own.joint, 'b', f.a, f.b, f.a, f.verdict from own join fits f on own.side = 'b' and f.b = own.n)
     select x.joint, x.side, x.a, x.b, x.verdict, o.slot, o.id, o.name from across x
     join mates m on m.mating = x.other join parts o on o.n = m.part
     left join (select id, min(position) as position from pack_terms where kind = 'joint' group by id) k on k.id = x.joint
     order by k.position, x.joint, o.pack, o.position`,
    [part],
  );
  const findings = new Map<string, Fit['findings']>();
  const joints = new Map((await reader.orm.select().from(t.joints)).map((joint) => [joint.id, joint.rules]));
  for (const { joint, a, b } of rows) {
    const key = `${a} ${b}`;
    if (findings.has(key)) continue;
    const [row] = await reader.orm
      .select({ findings: t.fits.findings })
      .from(t.fits)
      .where(and(eq(t.fits.a, a), eq(t.fits.b, b)));
    const rules = joints.get(joint) ?? [];
    findings.set(
      key,
      (row?.findings ?? []).map((finding, i) => ({ rule: rules[i] as (typeof rules)[number], ...finding })),
    );
  }
  return {
    part: refOf('part', self),
    partners: inOrder(
      rows.map(({ joint, side, a, b, verdict, slot, id, name }) => ({
        joint,
        slot,
        part: refOf('part', { id, name }),
        fit: {
          joint,
          a: side === 'a' ? part : id,
          b: side === 'a' ? id : part,
          verdict,
          findings: findings.get(`${a} ${b}`) ?? [],
        },
      })),
    ),
  };
};

interface KeptRow {
  readonly joint: JointId;
  readonly side: 'a' | 'b';
  readonly a: number;
  readonly b: number;
  readonly verdict: FitVerdict;
  readonly slot: SlotId;
  readonly id: PartId;
  readonly name: string;
}

type Partner = FitsAnswer['partners'][number];

/** Joints as they come; within a joint those that drop in first. */
const inOrder = (partners: readonly Partner[]): Partner[] => {
  const rank = new Map<JointId, number>();
  for (const { joint } of partners) if (!rank.has(joint)) rank.set(joint, rank.size);
  return [...partners].sort((a, b) => (rank.get(a.joint) ?? 0) - (rank.get(b.joint) ?? 0) || order[a.fit.verdict] - order[b.fit.verdict]);
};

const selfOf = async (reader: Reader, part: PartId): Promise<{ readonly id: string; readonly name: string }> => {
  const [self] = await reader.all<{ id: string; name: string }>('select id, name from parts where id = ?', [part]);
  return self ?? noSuchNode('part', part);
};

/** The same judged anew, for an atlas whose fits are not kept. */
export const fitsOf = async (reader: Reader, part: PartId, judge: JudgeFit): Promise<FitsAnswer> => {
  const self = await selfOf(reader, part);
  const across = await reader.all<{ joint: JointId; side: 'a' | 'b'; slot: SlotId; id: PartId; name: string }>(
    `with sides(joint, side, own, other) as (
       select j.id, 'a', a.slot, b.slot from joints j join ports a on a.id = j.a join ports b on b.id = j.b
       union all select j.id, 'b', b.slot, a.slot from joints j join ports a on a.id = j.a join ports b on b.id = j.b)
     select s.joint, s.side, s.other as slot, o.id, o.name from parts p join sides s on s.own = p.slot join parts o on o.slot = s.other
     left join (select id, min(position) as position from pack_terms where kind = 'joint' group by id) k on k.id = s.joint
     where p.id = ? order by k.position, s.joint, o.pack, o.position`,
    [part],
  );
  const partners = across
    .map(({ joint, side, slot, id, name }) => ({
      joint,
      slot,
      part: refOf('part', { id, name }),
      fit: side === 'a' ? judge(joint, part, id) : judge(joint, id, part),
    }))
    .filter(({ fit }) => fit.verdict !== 'will not fit');
  return { part: refOf('part', self), partners: inOrder(partners) };
};

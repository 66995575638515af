import { and, asc, eq, gte, lt } from 'drizzle-orm';
import type { Fact, FamilyId, FeatureId, GrammarToken, MakerId, ModelId, PartId, SlotId, SourceId } from '../../reasoner/index.ts';
import type { FamilyPage, MakerPage, ModelPage, NodeRef, PartPage } from '../answers.ts';
import { cellKept, type KeptCell, keyOf } from '../atlas/cell.ts';
import { factOf } from '../atlas/facts.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import * as t from '../schema.ts';
import { type Sitting, sittingsOfModels, sittingsOfPart } from './may-sit.ts';
import { noSuchNode, refOf, refRows, refsOf } from './node-refs.ts';
import { modelsSharingCore } from './shares-core.ts';
import { supersessionOf } from './supersession.ts';

/** One page for each kind of node. Each throws the trouble `not-found` for an id the atlas does not have. */

export const makerPage = async (reader: Reader, id: MakerId): Promise<MakerPage> => {
  const [maker] = await reader.orm.select().from(t.makers).where(eq(t.makers.id, id));
  if (maker === undefined) return noSuchNode('maker', id);
  const tradeNames = await reader.orm.select().from(t.tradeNames).where(eq(t.tradeNames.maker, id)).orderBy(asc(t.tradeNames.position));
  return {
    maker: refOf('maker', maker),
    tradeNames: tradeNames.map(({ name, from, to }) => ({ name, from, to })),
    families: await refRows(reader, 'family', 'select id, name from families where maker = ? order by pack, position', [id]),
    plateRule: maker.plateRule,
    grammar: maker.grammar === null ? [] : maker.grammar.tokens.map(tokenLine),
    source: maker.source,
  };
};

/** `exducer: a whole number from 30 to 99, after a space` */
const tokenLine = (token: GrammarToken): string => {
  const after = token.before === '' ? '' : token.before === ' ' ? ', after a space' : `, after “${token.before}”`;
  return `${token.name}: ${readsText(token.reads)}${after}${token.optional ? '; may be left out' : ''}`;
};

const readsText = (reads: GrammarToken['reads']): string => {
  switch (reads.kind) {
    case 'word':
      return reads.words.length === 1 ? `the word ${reads.words[0]}` : `one of ${reads.words.join(', ')}`;
    case 'whole number':
      return `a whole number from ${reads.from} to ${reads.to}`;
    case 'roman numeral':
      return `a Roman numeral from ${reads.from} to ${reads.to}`;
    case 'letters':
      return reads.length === 1 ? 'one letter' : `${reads.length} letters`;
    case 'sign':
      return reads.from === reads.to
        ? `the sign ${reads.sign} ${reads.from} times`
        : `the sign ${reads.sign}, ${reads.from} to ${reads.to} times`;
  }
};

export const familyPage = async (reader: Reader, id: FamilyId): Promise<FamilyPage> => {
  const [family] = await reader.orm.select().from(t.families).where(eq(t.families.id, id));
  if (family === undefined) return noSuchNode('family', id);
  const forth = (kind: t.FamilyEdgeKind) =>
    refRows(
      reader,
      'family',
      'select f.id, f.name from family_edges e join families f on f.id = e.to_family where e.kind = ? and e.from_family = ? order by e.position',
      [kind, id],
    );
  const back = (kind: t.FamilyEdgeKind) =>
    refRows(
      reader,
      'family',
      'select f.id, f.name from family_edges e join families f on f.id = e.from_family where e.kind = ? and e.to_family = ? order by f.pack, f.position',
      [kind, id],
    );
  return {
    family: refOf('family', family),
    maker: await oneRef(reader, 'maker', family.maker),
    about: family.about,
    from: family.from,
    to: family.to,
    descendsFrom: await forth('descends from'),
    descendants: await back('descends from'),
    succeeds: await forth('succeeds'),
    succeededBy: await back('succeeds'),
    patternOf: await forth('pattern of'),
    patterns: await back('pattern of'),
    generations: await refRows(reader, 'generation', 'select id, name from generations where family = ? order by pack, position', [id]),
    models: await refRows(reader, 'model', 'select id, name from models where family = ? order by pack, position', [id]),
    source: family.source,
  };
};

export const modelPage = async (reader: Reader, id: ModelId): Promise<ModelPage> => {
  const [model] = await reader.orm.select().from(t.models).where(eq(t.models.id, id));
  if (model === undefined) return noSuchNode('model', id);
  const [family] = await reader.orm.select().from(t.families).where(eq(t.families.id, model.family));
  if (family === undefined) throw new Error(`the model ${id} has no family`);
  const bySlot = groupBy(await sittingsOfModels(reader, [id]), (sitting) => sitting.slot);
  return {
    model: refOf('model', model),
    family: refOf('family', family),
    maker: await oneRef(reader, 'maker', family.maker),
    generation: await oneRef(reader, 'generation', model.generation),
    patternOf: (await refRows(reader, 'model', 'select id, name from models where n = ?', [model.patternOf]))[0] ?? null,
    from: model.from,
    to: model.to,
    slots: [...bySlot].map(([slot, sittings]) => ({
      slot,
      parts: sittings.map((sitting) => ({
        part: refOf('part', { id: sitting.part, name: sitting.partName }),
        role: sitting.role,
        ...inPlaceOf(sitting),
      })),
    })),
    openEnded: await openEndedSlots(reader, model.n, new Set(bySlot.keys())),
    sharesCore: await modelsSharingCore(reader, id),
    source: model.source,
  };
};

/** In the order of the slots. @param listed slots the model lists something for */
const openEndedSlots = async ({ orm }: Reader, model: number, listed: ReadonlySet<SlotId>): Promise<SlotId[]> => {
  const stated = new Set((await orm.select().from(t.openLists).where(eq(t.openLists.model, model))).map(({ slot }) => slot));
  const slots = await orm
    .select({ id: t.slots.id, group: t.slots.group })
    .from(t.packTerms)
    .innerJoin(t.slots, eq(t.packTerms.id, t.slots.id))
    .where(eq(t.packTerms.kind, 'slot'))
    .orderBy(t.packTerms.pack, t.packTerms.position);
  // Several packs may bring the same slot.
  const groups = new Map(slots.map(({ id, group }) => [id, group]));
  return [...groups].flatMap(([id, group]) => (group !== 'plate' && (stated.has(id) || !listed.has(id)) ? [id] : []));
};

export const partPage = async (reader: Reader, id: PartId): Promise<PartPage> => {
  const { orm } = reader;
  const [part] = await orm.select().from(t.parts).where(eq(t.parts.id, id));
  if (part === undefined) return noSuchNode('part', id);
  const numbers = await orm
    .select({ number: t.numbers.number })
    .from(t.numbers)
    .where(eq(t.numbers.part, part.n))
    .orderBy(t.numbers.position);
  const facts = await orm
    .select({ fact: t.facts, feature: t.features.id })
    .from(t.facts)
    .innerJoin(t.features, eq(t.features.n, t.facts.feature))
    .where(eq(t.facts.part, part.n));
  const order = await reader.all<{ id: string; position: number }>(
    `select id, min(position) as position from pack_terms where kind = 'feature' group by id`,
  );
  const positions = new Map(order.map(({ id: feature, position }) => [feature, position]));
  const saidBefore = await saidByPack(reader, part.pack, id, part.source);
  facts.sort((a, b) => (positions.get(a.feature) ?? 0) - (positions.get(b.feature) ?? 0));
  return {
    part: refOf('part', part),
    slot: part.slot,
    maker: part.maker,
    numbers: numbers.map(({ number }) => number),
    facts: facts.map(({ fact, feature }) => {
      const packSays = saidBefore.get(feature);
      return { feature, fact: factOf(fact), source: fact.source ?? part.source, ...(packSays === undefined ? {} : { packSays }) };
    }),
    patternOf: (await refRows(reader, 'part', 'select id, name from parts where n = ?', [part.patternOf]))[0] ?? null,
    patterns: await refRows(reader, 'part', 'select id, name from parts where pattern_of = ? order by pack, position', [part.n]),
    supersession: await supersessionOf(reader, id),
    sitsIn: (await sittingsOfPart(reader, id)).map((sitting) => ({
      model: refOf('model', { id: sitting.model, name: sitting.modelName }),
      role: sitting.role,
      ...inPlaceOf(sitting),
    })),
    source: part.source,
  };
};

/** What the pack says of a part’s features where the shop says otherwise, by feature; null where it says nothing. */
const saidByPack = async ({ orm }: Reader, pack: string, id: PartId, source: SourceId) => {
  const lead = keyOf('parts', id, 'facts', '');
  const rows = await orm
    .select({ cell: t.ownWords.cell, said: t.ownWords.said })
    .from(t.ownWords)
    .where(and(eq(t.ownWords.pack, pack), gte(t.ownWords.cell, lead), lt(t.ownWords.cell, `${lead}\u{10ffff}`)));
  return new Map(
    rows.map(({ cell, said }): [FeatureId, { readonly fact: Fact; readonly source: SourceId } | null] => {
      const kept = said === null ? null : cellKept(JSON.parse(said) as KeptCell);
      const { source: own, ...fact } = (kept?.is ?? {}) as unknown as Fact & { readonly source?: SourceId };
      return [cell.slice(lead.length) as FeatureId, kept === null ? null : { fact: fact as Fact, source: own ?? source }];
    }),
  );
};

const inPlaceOf = (sitting: Sitting): { inPlaceOf?: NodeRef } =>
  sitting.listed === sitting.part ? {} : { inPlaceOf: refOf('part', { id: sitting.listed, name: sitting.listedName }) };

const oneRef = async (reader: Reader, kind: NodeRef['kind'], id: string | null): Promise<NodeRef | null> =>
  id === null ? null : ((await refsOf(reader, kind, [id])).get(id) ?? null);

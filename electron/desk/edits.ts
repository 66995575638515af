import { z } from 'zod';
import type { EditedList } from '../../db/answers.ts';
import { type ListName, listsAndParts } from '../../db/atlas/lists.ts';
import { placesOfIds } from '../../db/changes/id-places.ts';
import { manyEdits, type SaidOfMany } from '../../db/changes/many-edits.ts';
import { type MergedList, mergedLists, mergeEdits } from '../../db/changes/merge-edits.ts';
import { numberEdits } from '../../db/changes/number-edits.ts';
import { renameEdits } from '../../db/changes/rename-edits.ts';
import { readEntry } from '../../db/edits/entries.ts';
import { readFact } from '../../db/tables/read-fact.ts';
import { sayFact } from '../../db/tables/say-fact.ts';
import {
  asId,
  type CompiledAtlas,
  expandCode,
  type Fact,
  type FeatureId,
  type Maker,
  readBy,
  readNumber,
  slipOf,
} from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import type { CellRead, EntryForm, MakerReads, Shape } from '../bridge/edit-calls.ts';
import { refusal, well } from '../bridge/reply.ts';
import { entriesCalled, entryNamed } from './entries-called.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** What forms ask while an entry is edited. */
export const editCalls = (kept: KeptAtlas): Calls<'edit'> => ({
  'edit.form': async ({ list }) => {
    const form = forms.get(list) ?? formOf(list);
    if (form === null) return refusal('not-found', 'list', `The atlas has no list “${list}” that is filled in by a form of its own.`);
    forms.set(list, form);
    return well(form);
  },

  'edit.check': async ({ list, put }) => {
    const read = readEntry(0, list, put);
    return well('faults' in read ? read.faults : []);
  },

  'edit.entries': async ({ list, text, slot, limit }) =>
    known(list) ? well(entriesCalled(await kept.now(), list, text, slot, limit)) : noList(list),

  'edit.named': async ({ of }) => {
    const atlas = await kept.now();
    return well(of.map(({ list, id }) => (known(list) ? entryNamed(atlas, list, id) : null)));
  },

  'edit.cells': async ({ facts }) => {
    const { features } = await kept.now();
    return well(
      Object.fromEntries(
        Object.entries(facts).flatMap(([id, fact]) => {
          const feature = features.get(asId<FeatureId>(id));
          return feature === undefined ? [] : [[id, String(sayFact(feature, fact as unknown as Fact))]];
        }),
      ),
    );
  },

  'edit.facts': async ({ cells }) => {
    const atlas = await kept.now();
    return well(Object.fromEntries(Object.entries(cells).map(([id, typed]) => [id, cellRead(atlas, asId<FeatureId>(id), typed)])));
  },

  'edit.reads': async ({ maker, text }) => {
    const parsed = listsAndParts.find(({ name }) => name === 'makers')?.schema.safeParse(maker);
    if (parsed === undefined || !parsed.success)
      return refusal('edit-invalid', 'maker', 'A text can be tried once the rules above are whole: some field of them is empty or wrong.');
    return well(readsOf(await kept.now(), parsed.data as unknown as Maker, text));
  },

  'edit.many': async ({ parts, said }) => well(manyEdits((await kept.now()).data, parts, said as unknown as SaidOfMany)),

  'edit.renamed': async ({ list, from, to }) => {
    const atlas = await kept.now();
    if (!known(list)) return noList(list);
    if (entryNamed(atlas, list, from) === null) return noEntry(list, from);
    if (entryNamed(atlas, list, to) !== null)
      return refusal('edit-invalid', 'to', `Another entry has the id “${to}” already: make the two one instead.`);
    return well(renameEdits(atlas.data, list, from, to));
  },

  'edit.merged': async ({ list, from, into, choices }) => {
    const atlas = await kept.now();
    if (!mergedLists.some((one) => one === list)) return refusal('edit-invalid', 'list', 'Two entries of this list cannot be made one.');
    for (const id of [from, into]) if (entryNamed(atlas, list, id) === null) return noEntry(list, id);
    if (from === into) return refusal('edit-invalid', 'into', 'An entry is one with itself already.');
    const [a, b] = [from, into].map((id) => atlas.parts.get(asId(id)));
    if (list === 'parts' && a?.slot !== b?.slot)
      return refusal('edit-invalid', 'into', 'The two are parts of different slots, and so are not one.');
    return well(mergeEdits(atlas.data, list as MergedList, from, into, choices));
  },

  'edit.renumbered': async ({ from, to }) => well(numberEdits((await kept.now()).data, from, to)),
});

const known = (list: EditedList): list is ListName | 'parts' => listsAndParts.some(({ name }) => name === list);
const noList = (list: string) => refusal('not-found', 'list', `The atlas has no list “${list}”.`);
const noEntry = (list: string, id: string) => refusal('not-found', id, `There is no “${id}” among the ${list}.`);

const forms = new Map<string, EntryForm>();
const formOf = (name: string): EntryForm | null => {
  const list = listsAndParts.find((each) => each.name === name);
  const places = placesOfIds.find((each) => each.name === name)?.places;
  // A part’s facts are no fields of a schema: their kind is the feature’s.
  if (list === undefined || places === undefined || name === 'parts') return null;
  const shape = z.toJSONSchema(list.schema, { io: 'input', target: 'draft-2020-12' }) as Shape;
  const listOf = (one: string): string => listsAndParts.find((each) => each.one === one)?.name ?? one;
  return { one: list.one, shape, references: places.map(({ at, to }) => ({ at, list: listOf(to) })) };
};

const expand = (nominal: number, code: string) => {
  const read = expandCode(nominal, code);
  return read.ok ? { lower: read.value.lower, upper: read.value.upper } : { error: read.sentence };
};

/** One cell, as the trade writes it. A figure stands alone in it, so that a comma between figures is a decimal sign. */
const cellRead = ({ features }: CompiledAtlas, id: FeatureId, typed: string): CellRead => {
  const feature = features.get(id);
  if (feature === undefined) return { ok: false, sentence: `The atlas has no feature “${id}”.`, likely: [] };
  const cell = { column: 0, text: typed.trim(), part: 'size', unit: null, within: null, number: false } as const;
  const decimal = /\d,\d/.test(typed) ? 'comma' : 'unsaid';
  const read = readFact(feature, [cell], { expandCode: expand, slipOf, decimal });
  if (read.ok) return read;
  const { found, expected, sentence, likely } = read.fault;
  return { ok: false, sentence: sentence ?? `Found ${found}, expected ${expected}.`, likely: likely ?? [] };
};

const readsOf = (atlas: CompiledAtlas, maker: Maker, text: string): MakerReads => {
  const name = maker.grammar === null ? null : readBy(maker, maker.grammar, text.trim());
  const families = new Set(atlas.data.families.filter((family) => family.maker === maker.id).map(({ id }) => id));
  const model = atlas.data.models.find(
    (one) => families.has(one.family) && one.name.toLowerCase() === (name?.canonical ?? text.trim()).toLowerCase(),
  );
  const patterns = maker.numbering ?? [];
  return {
    name: name && {
      pieces: name.tokens.map(({ token, text: as }) => ({ token: token.name, text: as })),
      faults: name.faults,
      model: model?.name ?? null,
    },
    numbers: patterns.flatMap((pattern) =>
      readNumber(pattern, text).map(({ texts, slot, made, month, check }) => ({
        pattern: pattern.name,
        pieces: texts.map((as, at) => {
          const piece = pattern.pieces[at];
          return { piece: piece === undefined ? '' : 'name' in piece ? piece.name : piece.kind, text: as };
        }),
        slot,
        made,
        month,
        check,
      })),
    ),
    patterns: patterns.length,
  };
};

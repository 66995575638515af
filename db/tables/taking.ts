import type { Feature, Maker, MakerId, Source, SourceId } from '../../reasoner/index.ts';
import { distance } from '../../reasoner/plain/distance.ts';
import { list } from '../../reasoner/plain/text.ts';
import type { Edit } from '../edits/seen.ts';
import { tight } from '../plain/fold.ts';
import { shown } from '../read/faults.ts';
import { isPlain, plainText } from '../read/plain-text.ts';
import type { CellFault } from './cell-fault.ts';
import type { Matching, Mended } from './column-use.ts';
import type { Known } from './known.ts';
import { freeId, idFor } from './made-ids.ts';
import type { ReadWith } from './read-fact.ts';
import type { Row } from './rows.ts';
import type { Said } from './say-entries.ts';

/** What a table is read with: the atlas, how it is matched and mended, and what its facts are said to come from. */
export interface Taking {
  readonly known: Known;
  readonly matching: Matching;
  readonly mended: Mended;
  readonly reading: ReadWith;
  /** The table itself, as a source. */
  readonly source: Source;
}

/** What was read of a table: the edits that bring it in, in the order they are made, and every cell that keeps a row out. */
export interface TableRead {
  readonly edits: readonly Edit[];
  /** Of each edit the row it comes from; null for a source or a maker that several lean on. */
  readonly rows: readonly (number | null)[];
  readonly faults: readonly CellFault[];
  /** Rows by what they come to. */
  readonly counts: {
    readonly rows: number;
    readonly added: number;
    readonly altered: number;
    readonly same: number;
    readonly faulty: number;
    readonly left: number;
  };
}

/** Edits as they are put together; the sources and makers that entries lean on come first, each once. */
export interface Gathered {
  readonly read: (row: number, edits: readonly Edit[]) => void;
  /** The maker called so; null where the row says that there is no maker’s name; undefined where it has a fault. */
  readonly makerOf: (row: Row, column: number | null, text: string) => MakerId | null | undefined;
  /** The source called so, or a new one of that title. */
  readonly sourceOf: (text: string) => SourceId;
  /** A figure that somebody has confirmed: its feature is to hold it plausible, or readings true to the part would be doubted. */
  readonly widen: (row: number, feature: Feature, to: { readonly from: number; readonly to: number }) => void;
  /** This table is the source of something. */
  readonly fromHere: () => SourceId;
  readonly edits: () => { readonly edits: readonly Edit[]; readonly rows: readonly (number | null)[] };
}

const none = new Set(['none', 'nomaker', 'nomakersname', 'unbranded', 'nobrand']);

export const gathered = ({ known, mended, source }: Taking): Gathered => {
  const [sources, makers] = [new Map<string, Source>(), new Map<string, Maker>()];
  const own: { readonly row: number; readonly edit: Edit }[] = [];
  const widened: { readonly row: number; readonly feature: Feature; readonly to: { readonly from: number; readonly to: number } }[] = [];
  const { beside } = known;
  const fromHere = (): SourceId => {
    if (!beside.sources.some(({ id }) => id === source.id)) sources.set(source.id, source);
    return source.id;
  };
  const toAdd = new Map(mended.makers.map((name) => [tight(name), name]));
  return {
    read: (row, edits) => own.push(...edits.map((edit) => ({ row, edit }))),
    fromHere,
    widen: (row, feature, to) => widened.push({ row, feature, to }),
    sourceOf: (text) => {
      const [found] = known.sourcesCalled(text);
      if (found !== undefined) return found.id;
      const before = [...sources.values()].find(({ title }) => title === text);
      if (before !== undefined) return before.id;
      const id = freeId(idFor(text), (one) => sources.has(one) || beside.sources.some((other) => other.id === one)) as SourceId;
      sources.set(id, { id, title: text, kind: source.kind });
      return id;
    },
    makerOf: (row, column, text) => {
      if (none.has(tight(text))) return null;
      const found = known.maker(text);
      if (found.length === 1) return (found[0] as Maker).id;
      if (found.length > 1) {
        row.fault(column, { found: shown(text), expected: oneCalledSo(found.map(({ id }) => id)) });
        return undefined;
      }
      const name = toAdd.get(tight(text));
      if (name !== undefined && isPlain(name) && name !== '') {
        const before = makers.get(tight(name));
        if (before !== undefined) return before.id;
        const id = freeId(
          idFor(name),
          (one) => [...makers.values()].some((other) => other.id === one) || beside.makers.some((other) => other.id === one),
        ) as MakerId;
        makers.set(tight(name), { id, name, tradeNames: [], plateRule: false, grammar: null, source: fromHere() });
        return id;
      }
      const near = beside.makers
        .flatMap((maker) => [maker.name, ...maker.tradeNames.map((traded) => traded.name)])
        .filter((one) => text.length > 3 && distance(tight(one), tight(text).slice(0, 60)) <= 2);
      row.fault(column, {
        found: shown(text),
        expected: 'a maker of the atlas by its name or a trade name, or none where the part bears no maker’s name',
        likely: [...new Set(near)].slice(0, 2).map((one) => ({ text: one, why: 'it is written almost like it' })),
        add: 'maker',
      });
      return undefined;
    },
    edits: () => {
      // A source or a maker nothing leans on, its row having a fault, is not brought in.
      const leans = new Set<unknown>();
      for (const { edit } of own)
        if ('put' in edit) for (const id of [edit.put.source, edit.put.maker, ...Object.values(edit.put.factSources ?? {})]) leans.add(id);
      const newMakers = [...makers.values()].filter(({ id }) => leans.has(id));
      for (const maker of newMakers) leans.add(maker.source);
      const brought = new Set(own.map(({ row }) => row));
      const features = new Map<string, Feature>();
      for (const { row, feature, to } of widened) {
        if (!brought.has(row)) continue;
        const { plausible = to } = features.get(feature.id) ?? feature;
        const wide = { from: Math.min(plausible.from, to.from), to: Math.max(plausible.to, to.to) };
        features.set(feature.id, { ...feature, plausible: wide });
      }
      const first: Edit[] = [
        ...[...features.values()].map((put) => ({ list: 'features', put: { ...put } })),
        ...[...sources.values()].filter(({ id }) => leans.has(id)).map((put) => ({ list: 'sources', put: { ...put } })),
        ...newMakers.map((put) => ({ list: 'makers', put: { ...put } })),
      ];
      return { edits: [...first, ...own.map(({ edit }) => edit)], rows: [...first.map(() => null), ...own.map(({ row }) => row)] };
    },
  };
};

/** What was read of these rows, once all of them were. @param counts rows that are brought in, or say what the atlas says */
export const readOf = (
  rows: readonly Row[],
  gather: Gathered,
  { mended }: Taking,
  counts: Pick<TableRead['counts'], 'added' | 'altered' | 'same'>,
): TableRead => ({
  ...gather.edits(),
  faults: rows.flatMap(({ faults }) => faults),
  counts: {
    rows: rows.length,
    ...counts,
    faulty: rows.filter(({ faults }) => faults.length > 0).length,
    left: mended.left.length,
  },
});

/** What is expected of a cell that several things are called by. */
export const oneCalledSo = (ids: readonly string[]): string => `the id of one of those called so: ${list(ids, 'or')}`;

/** A text of one line; a line end within it is a space. Undefined where it cannot be kept, which is a fault. */
export const lineIn = (row: Row, column: number | null, given: string): string | undefined => {
  const text = given.replace(/\s+/g, ' ').trim();
  if (text !== '' && isPlain(text) && text.length <= 2000) return text;
  row.fault(column, { found: shown(given), expected: text.length > 2000 ? 'at most 2000 characters' : plainText });
  return undefined;
};

/** What a cell comes to, held against what was brought out and what the atlas says now. */
export type Asked = 'nothing' | 'read' | 'clear';

/**
 * Whether a cell is to be read: an empty one says nothing, but where it was brought out with something in it; one that is as it was brought out says nothing either.
 * What was edited where the atlas has come to say something else since is in dispute (H4), and a fault until it is confirmed.
 * @param now what the atlas says there now
 */
export const askedOf = (row: Row, column: number | null, heading: string, text: string, now: Said): Asked => {
  const since = row.marks.since(heading, text);
  if (since === 'as brought out') return 'nothing';
  if (text === '' && since !== 'cleared') return 'nothing';
  const present = String(now);
  if (
    since !== 'not brought out' &&
    present !== text &&
    !row.marks.wasBroughtOut(heading, present) &&
    (column === null || !row.isConfirmed(column))
  ) {
    row.fault(column, {
      found: text === '' ? 'nothing' : shown(text),
      expected: present === '' ? 'nothing, as the atlas has it now' : `${present}, as the atlas has it now`,
      sentence: `The atlas has changed here since this was brought out, and now says ${present === '' ? 'nothing' : `“${present}”`}. ${text === '' ? 'The cell was emptied' : `The cell says “${text}”`}: somebody has to decide.`,
      likely: [{ text: present, why: 'the atlas says so now' }],
      confirm: 'moved on',
    });
    return 'nothing';
  }
  return text === '' ? 'clear' : 'read';
};

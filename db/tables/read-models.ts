import type { Model, ModelId, PartId, Role, SlotId } from '../../reasoner/index.ts';
import { idText } from '../atlas/schemas.ts';
import type { Edit } from '../edits/seen.ts';
import { shown } from '../read/faults.ts';
import type { CellSheet } from './cells.ts';
import type { PlainUse } from './column-use.ts';
import { freeId, idFor } from './made-ids.ts';
import { type Row, rowsOf } from './rows.ts';
import { everyRole, sayOfModel } from './say-entries.ts';
import { askedOf, type Gathered, gathered, lineIn, oneCalledSo, readOf, type TableRead, type Taking } from './taking.ts';

/**
 * A table with a model a row, and a column for each slot, whose cells name the parts that may sit there: several with a semicolon or a line end between, each with its role
 * behind it in brackets where it is another than the column’s. A model is found by its id, else by its name, in its family where one is named.
 */
export const readModels = (sheet: CellSheet, taking: Taking): TableRead => {
  const { known, matching, mended } = taking;
  const rows = rowsOf(sheet, matching, mended);
  const gather = gathered(taking);
  const ids = new Map<string, number>();
  let [added, altered, same] = [0, 0, 0];
  for (const row of rows) {
    const read = modelOf(row, taking, gather, (id) => ids.has(id) || known.model.has(id));
    if (read === null || row.faults.length > 0) continue;
    const { before, id } = read;
    const earlier = ids.get(id);
    if (earlier !== undefined) {
      row.fault(null, {
        found: `the model ${id} again`,
        expected: 'each model once',
        sentence: `Row ${earlier} is about the same model: leave one of the two out.`,
      });
      continue;
    }
    ids.set(id, row.row);
    if (before === null) added += 1;
    else if (read.edits.length > 0) altered += 1;
    else same += 1;
    gather.read(row.row, read.edits);
  }
  return readOf(rows, gather, taking, { added, altered, same });
};

const modelOf = (
  row: Row,
  { known }: Taking,
  gather: Gathered,
  isTaken: (id: string) => boolean,
): { readonly id: ModelId; readonly before: Model | null; readonly edits: readonly Edit[] } | null => {
  const [idCell, nameCell, familyCell] = [row.first('id'), row.first('name'), row.first('family')];
  const family = one(row, familyCell, known.familiesCalled, 'a family of the atlas');
  if (family === undefined) return null;
  let before: Model | null = null;
  if (idCell.text !== '') {
    before = known.model.get(idCell.text) ?? null;
    if (before === null && !idText.safeParse(idCell.text).success) {
      row.fault(idCell.column, { found: shown(idCell.text), expected: 'an id of letters, digits and . _ : + -, or nothing' });
      return null;
    }
  } else {
    if (nameCell.text === '') {
      row.fault(nameCell.column, { found: 'nothing', expected: 'the name of the model' });
      return null;
    }
    const called = known.modelsCalled(nameCell.text).filter((model) => family === null || model.family === family.id);
    if (called.length > 1) {
      row.fault(nameCell.column, {
        found: shown(nameCell.text),
        expected: oneCalledSo(called.slice(0, 4).map(({ id }) => id)),
      });
      return null;
    }
    before = called[0] ?? null;
  }
  const asked = (is: PlainUse) => {
    const { column, heading, text } = row.first(is);
    const now = before === null ? '' : sayOfModel(before, { is }, known);
    return { column, text, what: askedOf(row, column, heading, text, now) };
  };
  const [name, ofFamily, generation, from, to, pattern, open, source] = (
    ['name', 'family', 'generation', 'from', 'to', 'pattern of', 'open-ended', 'source'] as const
  ).map(asked) as [A, A, A, A, A, A, A, A];
  const must = (cell: A, expected: string) => {
    if (cell.what === 'clear') row.fault(cell.column, { found: 'nothing', expected });
  };
  must(name, 'the name of the model');
  must(ofFamily, 'the family of the model');
  const ownFamily = (ofFamily.what === 'read' || before === null ? family?.id : undefined) ?? before?.family;
  if (ownFamily === undefined)
    row.fault(familyCell.column, { found: 'nothing', expected: 'the family of the model, since the atlas does not have it yet' });
  const ownName = name.what === 'read' ? lineIn(row, name.column, name.text) : before?.name;
  if (ownName === undefined && name.text === '') row.fault(name.column, { found: 'nothing', expected: 'the name of the model' });
  const year = (cell: A, present: number | null): number | null => {
    if (cell.what !== 'read') return cell.what === 'clear' ? null : present;
    const read = /^[12]\d{3}$/.test(cell.text) ? Number(cell.text) : null;
    if (read === null && cell.text !== '?')
      row.fault(cell.column, { found: shown(cell.text), expected: 'a year such as 1987, or ? where it is not known' });
    return read;
  };
  const [first, last] = [year(from, before?.from ?? null), year(to, before?.to ?? null)];
  if (first !== null && last !== null && first > last)
    row.fault(to.column, { found: shown(to.text), expected: `a year no earlier than ${first}` });
  const named = <T extends { readonly id: string }>(
    cell: A,
    called: (text: string) => readonly T[],
    present: T['id'] | null,
    what: string,
  ): T['id'] | null => (cell.what === 'read' ? (one(row, cell, called, what)?.id ?? null) : cell.what === 'clear' ? null : present);
  const ownGeneration = named(
    generation,
    (text) => known.generationsCalled(text).filter((each) => each.family === ownFamily),
    before?.generation ?? null,
    'a generation of the family',
  );
  const patternOf = named(pattern, known.modelsCalled, before?.patternOf ?? null, 'a model of the atlas');
  const openEnded = slotsIn(row, open, before?.openEnded, known.slot);
  const id = before?.id ?? ((idCell.text !== '' ? idCell.text : freeId(idFor(ownFamily ?? '', ownName ?? ''), isTaken)) as ModelId);
  const lists = allowedOf(row, id, before, known);
  const saidSource = source.what === 'read' ? lineIn(row, source.column, source.text) : undefined;
  if (row.faults.length > 0 || ownName === undefined || ownFamily === undefined) return null;
  const ownSource = saidSource === undefined ? (before?.source ?? gather.fromHere()) : gather.sourceOf(saidSource);
  const entry = {
    id,
    name: ownName,
    family: ownFamily,
    generation: ownGeneration,
    patternOf,
    from: first,
    to: last,
    ...(openEnded === undefined || openEnded.length === 0 ? {} : { openEnded }),
    source: ownSource,
  };
  const isSame =
    before !== null &&
    (Object.entries(entry) as [keyof typeof entry, unknown][]).every(
      ([field, value]) => JSON.stringify(before?.[field] ?? null) === JSON.stringify(value ?? null),
    ) &&
    (before.openEnded ?? []).length === (openEnded ?? []).length;
  return { id, before, edits: [...(isSame ? [] : [{ list: 'models', put: entry }]), ...lists] };
};

interface A {
  readonly column: number | null;
  readonly text: string;
  readonly what: ReturnType<typeof askedOf>;
}

/** The one thing called so; null where nothing stands; undefined for a fault. */
const one = <T extends { readonly id: string }>(
  row: Row,
  { column, text }: { readonly column: number | null; readonly text: string },
  called: (text: string) => readonly T[],
  what: string,
): T | null | undefined => {
  if (text === '') return null;
  const found = called(text);
  if (found.length === 1) return found[0];
  row.fault(column, {
    found: shown(text),
    expected: found.length > 1 ? oneCalledSo(found.slice(0, 4).map(({ id }) => id)) : what,
  });
  return undefined;
};

const slotsIn = (
  row: Row,
  cell: A,
  present: readonly SlotId[] | undefined,
  called: (text: string) => readonly { readonly id: SlotId }[],
): readonly SlotId[] | undefined => {
  if (cell.what === 'nothing') return present;
  if (cell.what === 'clear') return undefined;
  return cell.text.split(/[;\n]/).flatMap((piece) => {
    const text = piece.trim();
    if (text === '') return [];
    const found = one(row, { column: cell.column, text }, called, 'kinds of part with ; between them');
    return found ? [found.id] : [];
  });
};

/** What the columns of slots allow, held against what is allowed: only what differs. */
const allowedOf = (row: Row, model: ModelId, before: Model | null, known: Taking['known']): readonly Edit[] => {
  const columns = row.all('fitted');
  const edits: Edit[] = [];
  for (const { column, heading, use, cell } of columns) {
    // Where a slot has several columns, each is of its role; a single one is of all.
    const roles = columns.filter((other) => other.use.slot === use.slot).length > 1 ? [use.role] : everyRole;
    const asked = askedOf(row, column, heading, cell.text, before === null ? '' : sayOfModel(before, use, known, roles));
    if (asked === 'nothing') continue;
    const said = new Map<PartId, Role>();
    for (const piece of cell.text.split(/[;\n]/)) {
      const text = piece.trim();
      if (text === '') continue;
      const role = /^(.*?)\s*\((names|option|service)\)$/i.exec(text);
      const word = role?.[1] ?? text;
      const part = one(
        row,
        { column, text: word },
        (called) => known.partsCalled(called).filter(({ slot }) => slot === use.slot),
        `parts that are a ${known.slotName(use.slot)}, by number, name or id, with ; between them`,
      );
      if (part) said.set(part.id, (role?.[2]?.toLowerCase() as Role | undefined) ?? use.role);
    }
    const present = (before?.allowed ?? []).filter(({ slot, role }) => slot === use.slot && roles.includes(role));
    for (const [part, role] of said)
      if (!present.some((one) => one.part === part && one.role === role)) edits.push({ allow: { model, slot: use.slot, part, role } });
    // What a table names is added to; only what was brought out and edited takes away.
    if (row.marks.since(heading, cell.text) === 'not brought out') continue;
    for (const { part } of present) if (!said.has(part)) edits.push({ disallow: { model, part } });
  }
  return edits;
};

import type { Fact, Feature, FeatureId, Part, PartId, SourceId } from '../../reasoner/index.ts';
import { shown } from '../read/faults.ts';
import type { CellSheet } from './cells.ts';
import type { FigurePart } from './column-use.ts';
import { sameFact } from './facts-of-row.ts';
import { type FigureCell, readFact } from './read-fact.ts';
import { unitCalled } from './read-figure.ts';
import { rowsOf } from './rows.ts';
import { sayFact } from './say-fact.ts';
import { askedOf, gathered, lineIn, oneCalledSo, readOf, type TableRead, type Taking } from './taking.ts';

/** A table with a fact a row: part, feature, value. What it does not say stays as it is. */
export const readFacts = (sheet: CellSheet, taking: Taking): TableRead => {
  const { known, matching, mended, reading } = taking;
  const rows = rowsOf(sheet, matching, mended);
  const gather = gathered(taking);
  const said = new Map<string, { readonly row: number; readonly fact: Fact | null }>();
  const parts = new Map<
    PartId,
    { readonly facts: Record<FeatureId, Fact>; readonly sources: Record<FeatureId, SourceId>; row: number; before: Part }
  >();
  let [added, altered, same] = [0, 0, 0];
  for (const row of rows) {
    const [partCell, slotCell, featureCell, unitCell] = [row.first('part'), row.first('slot'), row.first('feature'), row.first('unit')];
    const slots = slotCell.text === '' ? [] : known.slot(slotCell.text);
    if (slotCell.text !== '' && slots.length !== 1) row.fault(slotCell.column, { found: shown(slotCell.text), expected: 'a kind of part' });
    const slotId = slots[0]?.id ?? matching.slot;
    const found = known.partsCalled(partCell.text).filter(({ slot }) => slotId === null || slot === slotId);
    const [part] = found;
    if (part === undefined || found.length > 1) {
      row.fault(partCell.column, {
        found: partCell.text === '' ? 'nothing' : shown(partCell.text),
        expected: found.length > 1 ? oneCalledSo(found.slice(0, 4).map(({ id }) => id)) : 'the number, name or id of a part of the atlas',
      });
      continue;
    }
    const features = known.featureOf(part.slot, featureCell.text);
    const [feature] = features;
    if (feature === undefined || features.length > 1) {
      row.fault(featureCell.column, {
        found: featureCell.text === '' ? 'nothing' : shown(featureCell.text),
        expected: features.length > 1 ? oneCalledSo(features.map(({ id }) => id)) : `a feature of ${part.name}`,
      });
      continue;
    }
    const unit = unitCell.text === '' ? null : unitCalled(unitCell.text);
    const counted = feature.kind !== 'measure';
    if (unitCell.text !== '' && unit === null && !counted)
      row.fault(unitCell.column, { found: shown(unitCell.text), expected: 'mm, cm, in, thou or deg' });
    const cells = (['value', 'lower', 'upper', 'code'] as const).flatMap((is): (FigureCell & { heading: string })[] =>
      row.all(is).map(({ column, heading, cell }) => ({
        column,
        heading,
        text: cell.text,
        part: (is === 'value' ? 'size' : is) as FigurePart,
        unit: counted ? null : unit,
        within: null,
        number: cell.is === 'number',
      })),
    );
    const present = part.facts[feature.id];
    const asked = cells.map((cell) =>
      askedOf(row, cell.column, cell.heading, cell.text, present === undefined ? '' : sayFact(feature, present)),
    );
    if (row.faults.length > 0) continue;
    const clear = asked.includes('clear') && cells.every(({ text }) => text === '');
    if (!clear && !asked.includes('read')) {
      same += 1;
      continue;
    }
    const confirmed = new Set(cells.map(({ column }) => column).filter((column) => row.isConfirmed(column)));
    const read = clear
      ? null
      : readFact(
          feature,
          cells.filter(({ part: of, text }) => of === 'size' || text !== ''),
          reading,
          confirmed,
        );
    if (read !== null && !read.ok) {
      row.fault(read.column, read.fault);
      continue;
    }
    if (read?.beyond !== undefined) gather.widen(row.row, feature, read.beyond);
    const fact = read?.fact ?? null;
    const key = `${part.id} ${feature.id}`;
    const before = said.get(key);
    if (before !== undefined && (before.fact === null || fact === null || !sameFact(before.fact, fact))) {
      row.fault(cells[0]?.column ?? null, {
        found: shown(cells[0]?.text ?? ''),
        expected: `what row ${before.row} says of the same feature of the same part`,
      });
      continue;
    }
    said.set(key, { row: row.row, fact });
    const { column, text, heading } = row.first('source');
    const sourceText = text === '' || row.marks.since(heading, text) === 'as brought out' ? undefined : lineIn(row, column, text);
    if (row.faults.length > 0) continue;
    if (fact === null ? present === undefined : present !== undefined && sameFact(present, fact)) {
      same += 1;
      continue;
    }
    if (present === undefined) added += 1;
    else altered += 1;
    const own = parts.get(part.id) ?? { facts: { ...part.facts }, sources: { ...part.factSources }, row: row.row, before: part };
    parts.set(part.id, own);
    setFact(own, feature, fact, sourceText === undefined ? gather.fromHere() : gather.sourceOf(sourceText), part.source);
  }
  for (const { before, facts, sources, row } of parts.values()) {
    const { factSources: _, ...rest } = before;
    gather.read(row, [{ list: 'parts', put: { ...rest, facts, ...(Object.keys(sources).length === 0 ? {} : { factSources: sources }) } }]);
  }
  return readOf(rows, gather, taking, { added, altered, same });
};

const setFact = (
  own: { readonly facts: Record<FeatureId, Fact>; readonly sources: Record<FeatureId, SourceId> },
  { id }: Feature,
  fact: Fact | null,
  source: SourceId,
  ofPart: SourceId,
): void => {
  delete own.sources[id];
  if (fact === null) {
    delete own.facts[id];
    return;
  }
  own.facts[id] = fact;
  if (source !== ofPart) own.sources[id] = source;
};

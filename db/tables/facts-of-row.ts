import type { Fact, Feature, FeatureId, Part, Slot, SourceId } from '../../reasoner/index.ts';
import { plainFact } from '../atlas/facts.ts';
import { fold } from '../plain/fold.ts';
import { shown } from '../read/faults.ts';
import { type FigureCell, readFact } from './read-fact.ts';
import type { Row } from './rows.ts';
import { featureFor } from './say-entries.ts';
import { sayFact } from './say-fact.ts';
import { askedOf, type Gathered, type Taking } from './taking.ts';

/** The facts of a row over those the part has. */
export const factsOf = (
  row: Row,
  slot: Slot,
  before: Part | null,
  known: Taking['known'],
  reading: Taking['reading'],
  sourceOf: () => SourceId,
  widen: Gathered['widen'],
): { readonly facts: Part['facts']; readonly sources: Readonly<Record<FeatureId, SourceId>>; readonly altered: ReadonlySet<FeatureId> } => {
  const facts: Record<FeatureId, Fact> = { ...before?.facts };
  const sources: Record<FeatureId, SourceId> = { ...before?.factSources };
  const altered = new Set<FeatureId>();
  const set = (feature: Feature, fact: Fact) => {
    const present = facts[feature.id];
    if (present !== undefined && sameFact(present, fact)) return;
    facts[feature.id] = fact;
    sources[feature.id] = sourceOf();
    altered.add(feature.id);
  };
  const cells = new Map<FeatureId, (FigureCell & { readonly heading: string })[]>();
  for (const { column, heading, use, cell } of row.all('figure')) {
    const feature = featureFor(use.features, slot.id, known);
    if (feature === undefined) {
      if (cell.text === '' || row.marks.since(heading, cell.text) === 'as brought out') continue;
      row.fault(column, { found: shown(cell.text), expected: `nothing: a ${slot.name} has no such feature` });
      continue;
    }
    const own = cells.get(feature.id) ?? [];
    const twice = own.find(({ part, text }) => part === use.part && text !== '');
    if (twice !== undefined && cell.text !== '') {
      if (fold(twice.text) !== fold(cell.text))
        row.fault(column, { found: shown(cell.text), expected: `${twice.text}, as “${twice.heading}” says of the same feature` });
      continue;
    }
    cells.set(feature.id, [
      ...own,
      { column, heading, text: cell.text, part: use.part, unit: use.unit, within: use.within, number: cell.is === 'number' },
    ]);
  }
  for (const [id, all] of cells) {
    const feature = known.feature.get(id) as Feature;
    const present = facts[id] === undefined ? '' : sayFact(feature, facts[id]);
    const faultsBefore = row.faults.length;
    const asked = all.map((cell) => askedOf(row, cell.column, cell.heading, cell.text, present));
    if (row.faults.length > faultsBefore) continue;
    if (asked.includes('clear') && all.every(({ text }) => text === '')) {
      delete facts[id];
      delete sources[id];
      continue;
    }
    if (!asked.includes('read')) continue;
    const [full] = all;
    const splitters = known.splittersOf.get(id);
    const both = full === undefined || splitters === undefined ? null : /^(\d{1,3})\s*\+\s*(\d{1,3})$/.exec(full.text);
    const pieces: readonly (readonly [Feature, FigureCell])[] =
      both === null || full === undefined || splitters === undefined
        ? []
        : [
            [feature, { ...full, text: both[1] as string }],
            [known.feature.get(splitters) as Feature, { ...full, text: both[2] as string }],
          ];
    const confirmed = new Set(all.map(({ column }) => column).filter((column) => row.isConfirmed(column)));
    const reads =
      pieces.length > 0
        ? pieces.map(([of, cell]) => ({ of, read: readFact(of, [cell], reading, confirmed) }))
        : [{ of: feature, read: readFact(feature, all, reading, confirmed) }];
    for (const { of, read } of reads) {
      if (read.ok && read.beyond !== undefined) widen(row.row, of, read.beyond);
      if (read.ok) set(of, read.fact);
      else row.fault(read.column, read.fault);
    }
  }
  return { facts, sources, altered };
};

/** Whether two facts say the same, however they are written. */
export const sameFact = (a: Fact, b: Fact): boolean => JSON.stringify(plainFact(a)) === JSON.stringify(plainFact(b));

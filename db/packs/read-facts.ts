import type { Fact, FeatureId, Part, PartId, SourceId } from '../../reasoner/index.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import type { ExpandCode, SlipOf } from '../read/asked.ts';
import type { Place } from '../read/faults.ts';
import { readFact } from './facts.ts';
import type { MappedIds } from './mapping/mapped-ids.ts';
import { readCsv } from './read-files.ts';
import type { ReadParts } from './read-parts.ts';
import { mappedRow, type Reading } from './reading.ts';

type PartFacts = { readonly facts: Part['facts']; readonly factSources?: NonNullable<Part['factSources']> };

export const readFacts = async (
  { from, find, faults, ids }: Reading,
  parts: ReadParts,
  expand: ExpandCode,
  slipOf: SlipOf | undefined,
): Promise<{ readonly facts: ReadonlyMap<PartId, PartFacts>; readonly rowOf: (part: string, feature: string) => number | null }> => {
  /** The feature each fact was brought under, where it is called otherwise here. */
  const broughtAs = new Map<string, string>();
  const byPart = new Map<string, { facts: Record<FeatureId, Fact>; sources: Record<FeatureId, SourceId>; rows: Record<string, number> }>();
  const own = new Set<string>(parts.read.map(({ part }) => part.id));
  for (const { row, cells: brought } of await readCsv(from, 'facts.csv', faults)) {
    const at = (column: string): Place => ({ file: 'facts.csv', row, column });
    const { cells } = mappedRow({ row, cells: brought }, ['feature', 'source'], ids);
    const part = parts.find(cells.part, at('part'));
    const feature = find.feature.find(cells.feature, at('feature'), faults);
    if (cells.source !== '') find.source.find(cells.source, at('source'), faults);
    if (part === undefined || feature === undefined) continue;
    if (!own.has(part.id)) faults.add(at('part'), JSON.stringify(part.id), 'a part of this pack: facts stand in the pack of their part');
    if (feature.slot !== part.slot) {
      faults.add(at('feature'), `a feature of ${feature.slot}`, `a feature of ${part.slot}, where ${part.id} sits`);
      continue;
    }
    const options = feature.kind === 'choice' && ids !== null ? mappedOptions(cells.value, brought.feature, ids) : null;
    if (options?.none !== undefined) {
      faults.add(
        at('value'),
        `the option "${options.none}" of "${brought.feature}", which is mapped onto "${feature.id}"`,
        `an option that is mapped onto one of "${feature.id}": ${feature.options?.map(({ id }) => id).join(', ')}`,
      );
      continue;
    }
    const read = readFact(options === null ? cells : { ...cells, value: options.value }, feature, expand, slipOf);
    if (!read.ok) {
      faults.add(at(read.column), read.found, read.expected);
      continue;
    }
    const known = byPart.get(part.id);
    const of = known ?? { facts: {}, sources: {}, rows: {} };
    if (known === undefined) byPart.set(part.id, of);
    if (Object.hasOwn(of.facts, feature.id)) {
      const key = `${part.id} ${feature.id}`;
      const before = broughtAs.get(key) ?? feature.id;
      // Two features that are one here may both say it, as long as they say the same.
      if (before !== brought.feature && sameValue(of.facts[feature.id], read.fact)) continue;
      if (before === brought.feature)
        faults.add(at('feature'), `${feature.id} of ${part.id} a second time`, 'every feature of a part once');
      else
        faults.add(
          at('feature'),
          `"${brought.feature}", which is one with "${before}" here and says otherwise of ${part.id} (row ${of.rows[feature.id]})`,
          'features of one part that are mapped onto one to say the same',
        );
      continue;
    }
    if (brought.feature !== feature.id) broughtAs.set(`${part.id} ${feature.id}`, brought.feature);
    of.facts[feature.id] = read.fact;
    of.rows[feature.id] = row;
    if (cells.source !== '' && cells.source !== part.source) of.sources[feature.id] = cells.source as SourceId;
  }
  const facts = new Map<PartId, PartFacts>();
  for (const [id, { facts: of, sources }] of byPart)
    facts.set(id as PartId, Object.keys(sources).length === 0 ? { facts: of } : { facts: of, factSources: sources });
  return { facts, rowOf: (part, feature) => byPart.get(part)?.rows[feature] ?? null };
};

/** The options of a fact as they are called here; the first that has none like it. */
const mappedOptions = (value: string, feature: string, ids: MappedIds): { readonly value: string; readonly none?: string } => {
  if (value === '?' || value === '') return { value };
  const options = value.split('|');
  const none = options.find((option) => ids.optionOf(feature, option) === null);
  if (none !== undefined) return { value, none };
  const called = options.map((option) => ids.optionOf(feature, option) as string);
  // Two that are one here are said once; one that was written twice stays so, and is refused.
  const twice = new Set(options).size < options.length;
  return { value: (twice ? called : [...new Set(called)]).join('|') };
};

import type { Fact, Feature, FeatureId, MakerId, Part, PartId, Slot, SlotId, SourceId } from '../../reasoner/index.ts';
import { markKey } from '../../reasoner/plain/letters.ts';
import { list } from '../../reasoner/plain/text.ts';
import { plainFact } from '../atlas/facts.ts';
import { idText } from '../atlas/schemas.ts';
import { shown } from '../read/faults.ts';
import type { CellSheet } from './cells.ts';
import { fold, tight } from './fold.ts';
import { freeId, idFor } from './made-ids.ts';
import { type FigureCell, readFact } from './read-fact.ts';
import { type Row, rowsOf } from './rows.ts';
import { featureFor, sayOfPart } from './say-entries.ts';
import { sayFact } from './say-fact.ts';
import { askedOf, gathered, lineIn, type TableRead, type Taking } from './taking.ts';

/** A row with the part it is about: one of the atlas, or one that is new. */
interface About {
  readonly row: Row;
  readonly slot: Slot;
  readonly before: Part | null;
  readonly id: PartId;
  readonly numbers: readonly string[];
}

/**
 * A table with a part a row. A part is found by its id, else by its numbers, else by its name among those of its slot; else it is new, with an id made of its maker
 * and number, or its slot and name. What a row does not say of a part that is there stays as it is.
 */
export const readParts = (sheet: CellSheet, taking: Taking): TableRead => {
  const { known, matching, reading, mended } = taking;
  const rows = rowsOf(sheet, matching, mended);
  const gather = gathered(taking);
  const ids = new Map<string, number>();
  const isTaken = (id: string): boolean => ids.has(id) || known.part.has(id as PartId);
  const newNumbers = new Map<string, number>();
  const abouts = rows.flatMap((row): About[] => {
    const about = aboutOf(row, taking, isTaken, gather.makerOf);
    if (about === null) return [];
    const keys = about.before === null ? newKeysOf(about) : [];
    const earlier = ids.get(about.id) ?? keys.map((key) => newNumbers.get(key)).find((at) => at !== undefined);
    for (const key of keys) newNumbers.set(key, row.row);
    if (earlier !== undefined) {
      row.fault(null, {
        found: `the part ${about.id} again`,
        expected: 'each part once',
        sentence: `Row ${earlier} is about the same part, ${about.before?.name ?? about.id}: leave one of the two out, or tell them apart by their numbers.`,
      });
      return [];
    }
    ids.set(about.id, row.row);
    return [about];
  });
  // Parts this table brings may be named in it as others are.
  const brought = new Map<string, About[]>();
  for (const about of abouts)
    if (about.before === null)
      for (const number of about.numbers) brought.set(markKey(number), [...(brought.get(markKey(number)) ?? []), about]);
  const partNamed = (row: Row, column: number | null, text: string, slot: SlotId): PartId | undefined => {
    const found = [
      ...new Set([
        ...known
          .partsCalled(text)
          .filter((part) => part.slot === slot)
          .map(({ id }) => id),
        ...(brought.get(markKey(text)) ?? []).filter((about) => about.slot.id === slot).map(({ id }) => id),
      ]),
    ];
    if (found.length === 1) return found[0];
    row.fault(column, {
      found: shown(text),
      expected:
        found.length > 1
          ? `the id of one of those called so: ${list(found.slice(0, 4), 'or')}`
          : 'the number, name or id of a part of the same slot',
    });
    return undefined;
  };
  let [added, altered, same] = [0, 0, 0];
  for (const about of abouts) {
    const { row, before } = about;
    const after = partOf(about, taking, gather, (column, text) => partNamed(row, column, text, about.slot.id), reading);
    if (row.faults.length > 0 || after === null) continue;
    if (before !== null && samePart(before, after)) {
      same += 1;
      continue;
    }
    if (before === null) added += 1;
    else altered += 1;
    gather.read(row.row, [{ list: 'parts', put: { ...after } }]);
  }
  return {
    ...gather.edits(),
    faults: rows.flatMap(({ faults }) => faults),
    counts: {
      rows: rows.length,
      added,
      altered,
      same,
      faulty: rows.filter(({ faults }) => faults.length > 0).length,
      left: mended.left.length,
    },
  };
};

/** What tells a part that is new from every other of the table: each of its numbers with its maker, or its name. */
const newKeysOf = ({ row, slot, numbers }: About): readonly string[] => {
  const maker = tight(row.first('maker').text);
  return numbers.length > 0
    ? numbers.map((number) => `${slot.id} ${maker} ${markKey(number)}`)
    : [`${slot.id} ${maker} “${tight(row.first('name').text)}”`];
};

const numbersIn = (row: Row): { readonly texts: readonly string[]; readonly column: number | null } => {
  const texts: string[] = [];
  const columns = row.all('numbers');
  for (const { cell, column } of columns)
    for (const piece of cell.text.split(/[;|\n]/)) {
      const text = piece.replace(/\s+/g, ' ').trim();
      if (text === '') continue;
      if (/^\d+(?:[.,]\d+)?E\+\d+$/i.test(text))
        row.fault(column, {
          found: shown(text),
          expected: 'the number written out',
          sentence: `A spreadsheet has shortened this number to ${text}, and the rest of it is lost. Write it out.`,
        });
      else if (/\p{Cc}/u.test(text) || text.length > 200)
        row.fault(column, { found: shown(text), expected: 'a number of one line, at most 200 signs' });
      else if (!texts.some((one) => one === text)) texts.push(text);
    }
  return { texts, column: columns[0]?.column ?? null };
};

const aboutOf = (
  row: Row,
  { known, matching }: Taking,
  isTaken: (id: string) => boolean,
  makerOf: (row: Row, column: number | null, text: string) => MakerId | null | undefined,
): About | null => {
  const [idCell, slotCell, nameCell] = [row.first('id'), row.first('slot'), row.first('name')];
  const { texts: numbers, column: numberColumn } = numbersIn(row);
  // Where a cell that tells which part it is cannot be taken at its word, nothing else is said of the row for want of it.
  const telling = ['id', 'slot', 'name', 'numbers'].flatMap((is) => row.all(is as 'id').map(({ column }) => column));
  if (row.faults.some(({ column }) => column !== null && telling.includes(column))) return null;
  const said = slotCell.text === '' ? [] : known.slot(slotCell.text);
  if (slotCell.text !== '' && said.length !== 1) {
    row.fault(slotCell.column, {
      found: shown(slotCell.text),
      expected:
        said.length > 1
          ? `the id of one of those called so: ${list(
              said.map(({ id }) => id),
              'or',
            )}`
          : `a kind of part: ${list(
              known.beside.slots.map(({ name }) => name),
              'or',
            )}`,
      likely: known.beside.slots
        .filter(
          ({ name }) =>
            tight(slotCell.text).length > 3 &&
            (tight(name).startsWith(tight(slotCell.text)) || tight(slotCell.text).startsWith(tight(name))),
        )
        .slice(0, 2)
        .map(({ name }) => ({ text: name, why: 'it begins so' })),
    });
    return null;
  }
  const slot = said[0] ?? known.beside.slots.find(({ id }) => id === matching.slot);
  const ofSlot = (parts: readonly Part[]): readonly Part[] => (slot === undefined ? parts : parts.filter((part) => part.slot === slot.id));
  let before: Part | null = null;
  if (idCell.text !== '') {
    before = known.part.get(idCell.text as PartId) ?? null;
    if (before === null && !idText.safeParse(idCell.text).success) {
      row.fault(idCell.column, { found: shown(idCell.text), expected: 'an id of letters, digits and . _ : + -, or nothing' });
      return null;
    }
  }
  if (before === null) {
    const numbered = new Map(numbers.flatMap((number) => known.partsNumbered(number)).map((part) => [part.id, part]));
    const [here, elsewhere] = [
      ofSlot([...numbered.values()]),
      [...numbered.values()].filter((part) => slot !== undefined && part.slot !== slot.id),
    ];
    const given = row.first('maker').text;
    // A number alone does not tell two makers’ parts apart.
    const makers = given === '' ? [] : known.maker(given);
    const agreeing = here.filter((part) => makers.length !== 1 || part.maker === makers[0]?.id);
    if (agreeing.length > 1) {
      row.fault(numberColumn, {
        found: shown(numbers.join('; ')),
        expected: `numbers of one part; they are those of ${list(agreeing.slice(0, 4).map(({ id }) => id))}`,
      });
      return null;
    }
    const [found] = agreeing;
    if (found === undefined && here.length === 0 && elsewhere.length > 0 && idCell.text === '') {
      const [other] = elsewhere as [Part];
      const where = known.beside.slots.find(({ id }) => id === other.slot)?.name ?? other.slot;
      row.fault(numberColumn, {
        found: shown(numbers.join('; ')),
        expected: 'a number of its own',
        sentence: `The atlas has this number for a ${where}, ${other.name}, and the row is about a ${slot?.name}.`,
      });
      return null;
    }
    if (found !== undefined) {
      if (idCell.text !== '') {
        row.fault(idCell.column, { found: shown(idCell.text), expected: `${found.id}, whose number this is` });
        return null;
      }
      before = found;
    } else if (idCell.text === '' && numbers.length === 0 && nameCell.text !== '' && slot !== undefined) {
      const called = known.partsCalled(nameCell.text).filter((part) => part.slot === slot.id && tight(part.name) === tight(nameCell.text));
      const alike = called.filter((part) => makers.length !== 1 || part.maker === makers[0]?.id);
      if (alike.length > 1) {
        row.fault(nameCell.column, {
          found: shown(nameCell.text),
          expected: `the id of one of those called so: ${list(
            alike.slice(0, 4).map(({ id }) => id),
            'or',
          )}`,
        });
        return null;
      }
      before = alike[0] ?? null;
    }
  }
  if (before !== null) {
    const own = known.beside.slots.find(({ id }) => id === before?.slot) as Slot;
    if (said[0] !== undefined && said[0].id !== own.id) {
      row.fault(slotCell.column, { found: shown(slotCell.text), expected: `${own.name}, which ${before.name} is` });
      return null;
    }
    return { row, slot: own, before, id: before.id, numbers };
  }
  if (slot === undefined) {
    row.fault(slotCell.column, { found: 'nothing', expected: 'what kind of part it is, in a column or for all rows at once' });
    return null;
  }
  if (idCell.text !== '') return { row, slot, before: null, id: idCell.text as PartId, numbers };
  const [number] = numbers;
  if (number === undefined && nameCell.text === '') {
    row.fault(null, {
      found: 'neither number nor name',
      expected: 'a number or a name',
      sentence: 'Nothing in this row says which part it is: a number, a name or an id is wanted.',
    });
    return null;
  }
  const faultsBefore = row.faults.length;
  const maker = makerFor(row, matching.maker, makerOf);
  // The maker’s fault is told once, where the part is made.
  row.faults.length = faultsBefore;
  const wanted = number === undefined ? idFor(slot.id, nameCell.text) : idFor(...(maker ? [maker] : [slot.id]), number);
  return { row, slot, before: null, id: freeId(wanted, isTaken) as PartId, numbers };
};

/** The maker of a new part; undefined where nothing, or nothing that can be read, says who. */
const makerFor = (
  row: Row,
  ofAll: Taking['matching']['maker'],
  makerOf: (row: Row, column: number | null, text: string) => MakerId | null | undefined,
): MakerId | null | undefined => {
  const { column, text } = row.first('maker');
  if (text !== '') return makerOf(row, column, text);
  if (ofAll === 'none') return null;
  return ofAll?.id;
};

const partOf = (
  { row, slot, before, id, numbers }: About,
  { known, matching }: Taking,
  gather: ReturnType<typeof gathered>,
  partNamed: (column: number | null, text: string) => PartId | undefined,
  reading: Taking['reading'],
): Part | null => {
  const now = (is: 'name' | 'maker' | 'numbers' | 'pattern of' | 'supersedes' | 'source') =>
    before === null ? '' : sayOfPart(before, { is }, known);
  const asked = (is: 'name' | 'maker' | 'numbers' | 'pattern of' | 'supersedes' | 'source') => {
    const { column, heading, text } = row.first(is);
    return { column, text, what: askedOf(row, column, heading, text, now(is)) };
  };
  const must = (column: number | null, expected: string) => row.fault(column, { found: 'nothing', expected });
  const [name, maker, numbered, pattern, supersedes, source] = [
    asked('name'),
    asked('maker'),
    asked('numbers'),
    asked('pattern of'),
    asked('supersedes'),
    asked('source'),
  ];

  const names = row
    .all('name')
    .map(({ cell }) => cell.text)
    .filter((text) => text !== '');
  let ownName = before?.name;
  if (name.what === 'read' || (before === null && names.length > 0)) ownName = lineIn(row, name.column, names.join(' '));
  else if (name.what === 'clear') must(name.column, 'a name');
  ownName ??= numbers[0] === undefined ? undefined : `${slot.name} ${numbers[0]}`;

  let ownMaker = before === null ? makerFor(row, matching.maker, gather.makerOf) : before.maker;
  if (before !== null && maker.what === 'read') ownMaker = gather.makerOf(row, maker.column, maker.text) as MakerId | null;
  else if (before !== null && maker.what === 'clear') must(maker.column, 'a maker, or none where the part bears no maker’s name');
  if (before === null && ownMaker === undefined && row.faults.every(({ column }) => column !== maker.column || column === null))
    row.fault(maker.column, {
      found: 'nothing',
      expected: 'a maker, or none where the part bears no maker’s name',
      sentence:
        'Nothing says who makes this part: write the maker, or “none” where it bears no maker’s name. It can be said for all rows at once.',
    });

  let ownNumbers: readonly string[] = before?.numbers ?? numbers;
  if (before !== null && numbered.what !== 'nothing') {
    const edited = row.marks.since(row.first('numbers').heading, numbered.text) !== 'not brought out';
    const fresh = numbers.filter((number) => !before.numbers.some((one) => markKey(one) === markKey(number)));
    ownNumbers = edited
      ? numbers.map((number) => before.numbers.find((one) => markKey(one) === markKey(number) && one === number) ?? number)
      : [...before.numbers, ...fresh];
  }

  const reference = (cell: typeof pattern, present: PartId | undefined): PartId | undefined =>
    cell.what === 'nothing' ? present : cell.what === 'clear' ? undefined : partNamed(cell.column, cell.text);
  const [patternOf, supersedesPart] = [reference(pattern, before?.patternOf), reference(supersedes, before?.supersedes)];
  if (patternOf !== undefined && ownMaker !== null && ownMaker !== undefined)
    row.fault(pattern.column, {
      found: shown(pattern.text),
      expected: 'nothing, since a pattern part bears no maker’s name and this one has a maker',
    });
  for (const [of, cell] of [
    [patternOf, pattern],
    [supersedesPart, supersedes],
  ] as const)
    if (of === id) row.fault(cell.column, { found: shown(cell.text), expected: 'another part than itself' });

  const saidSource = source.what === 'read' ? lineIn(row, source.column, source.text) : undefined;
  const sourceHere: SourceId | undefined = saidSource === undefined ? undefined : gather.sourceOf(saidSource);
  const { facts, sources, altered } = factsOf(row, slot, before, known, reading, () => sourceHere ?? gather.fromHere(), gather.widen);
  if (row.faults.length > 0 || ownName === undefined || ownMaker === undefined) return null;
  const partSource = before === null ? (sourceHere ?? gather.fromHere()) : (sourceHere ?? before.source);
  const factSources = Object.fromEntries(
    Object.entries(sources).filter(([feature, of]) => of !== partSource || !altered.has(feature as FeatureId)),
  );
  return {
    id,
    slot: slot.id,
    name: ownName,
    maker: ownMaker,
    numbers: ownNumbers,
    ...(patternOf === undefined ? {} : { patternOf }),
    ...(supersedesPart === undefined ? {} : { supersedes: supersedesPart }),
    source: partSource,
    facts,
    ...(Object.keys(factSources).length === 0 ? {} : { factSources }),
  };
};

/** The facts of a row over those the part has. */
const factsOf = (
  row: Row,
  slot: Slot,
  before: Part | null,
  known: Taking['known'],
  reading: Taking['reading'],
  sourceOf: () => SourceId,
  widen: ReturnType<typeof gathered>['widen'],
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

export const sameFact = (a: Fact, b: Fact): boolean => JSON.stringify(plainFact(a)) === JSON.stringify(plainFact(b));

const samePart = (a: Part, b: Part): boolean =>
  a.name === b.name &&
  a.maker === b.maker &&
  a.patternOf === b.patternOf &&
  a.supersedes === b.supersedes &&
  a.source === b.source &&
  JSON.stringify(a.numbers) === JSON.stringify(b.numbers) &&
  Object.keys(a.facts).length === Object.keys(b.facts).length &&
  (Object.entries(a.facts) as [FeatureId, Fact][]).every(([id, fact]) => b.facts[id] !== undefined && sameFact(fact, b.facts[id]));

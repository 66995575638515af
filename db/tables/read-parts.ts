import type { Fact, FeatureId, MakerId, Part, PartId, Slot, SlotId, SourceId } from '../../reasoner/index.ts';
import { markKey } from '../../reasoner/plain/letters.ts';
import { list } from '../../reasoner/plain/text.ts';
import { idText } from '../atlas/schemas.ts';
import { tight } from '../plain/fold.ts';
import { groupBy } from '../plain/group-by.ts';
import { shown } from '../read/faults.ts';
import type { CellSheet } from './cells.ts';
import { factsOf, sameFact } from './facts-of-row.ts';
import type { Known } from './known.ts';
import { freeId, idFor } from './made-ids.ts';
import { type Row, rowsOf } from './rows.ts';
import { sayOfPart } from './say-entries.ts';
import { askedOf, type Gathered, gathered, lineIn, oneCalledSo, readOf, type TableRead, type Taking } from './taking.ts';

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
  const brought = groupBy(
    abouts.flatMap((about) => (about.before === null ? about.numbers.map((number) => ({ key: markKey(number), about })) : [])),
    ({ key }) => key,
  );
  const partNamed = (row: Row, column: number | null, text: string, slot: SlotId): PartId | undefined => {
    const found = [
      ...new Set([
        ...known
          .partsCalled(text)
          .filter((part) => part.slot === slot)
          .map(({ id }) => id),
        ...(brought.get(markKey(text)) ?? []).flatMap(({ about }) => (about.slot.id === slot ? [about.id] : [])),
      ]),
    ];
    if (found.length === 1) return found[0];
    row.fault(column, {
      found: shown(text),
      expected: found.length > 1 ? oneCalledSo(found.slice(0, 4)) : 'the number, name or id of a part of the same slot',
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
  return readOf(rows, gather, taking, { added, altered, same });
};

/** What tells a part that is new from every other of the table: each of its numbers with its maker, or its name. */
const newKeysOf = ({ row, slot, numbers }: About): readonly string[] => {
  const maker = tight(row.first('maker').text);
  return numbers.length > 0
    ? numbers.map((number) => `${slot.id} ${maker} ${markKey(number)}`)
    : [`${slot.id} ${maker} “${tight(row.first('name').text)}”`];
};

interface Numbers {
  readonly texts: readonly string[];
  /** The first column of them. */
  readonly column: number | null;
}

const numbersIn = (row: Row): Numbers => {
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

/** The slot a row names; null where it names none; undefined for a fault. */
const slotIn = (row: Row, known: Known): Slot | null | undefined => {
  const { column, text } = row.first('slot');
  if (text === '') return null;
  const said = known.slot(text);
  if (said.length === 1) return said[0];
  const { slots } = known.beside;
  row.fault(column, {
    found: shown(text),
    expected:
      said.length > 1
        ? oneCalledSo(said.map(({ id }) => id))
        : `a kind of part: ${list(
            slots.map(({ name }) => name),
            'or',
          )}`,
    likely: slots
      .filter(({ name }) => tight(text).length > 3 && (tight(name).startsWith(tight(text)) || tight(text).startsWith(tight(name))))
      .slice(0, 2)
      .map(({ name }) => ({ text: name, why: 'it begins so' })),
  });
  return undefined;
};

/** The part of the atlas a row is about; null where it is a new one; undefined for a fault. */
const partIn = (
  row: Row,
  { texts: numbers, column: numberColumn }: Numbers,
  slot: Slot | undefined,
  known: Known,
): Part | null | undefined => {
  const [idCell, nameCell] = [row.first('id'), row.first('name')];
  const named = known.part.get(idCell.text as PartId);
  if (named !== undefined) return named;
  if (idCell.text !== '' && !idText.safeParse(idCell.text).success) {
    row.fault(idCell.column, { found: shown(idCell.text), expected: 'an id of letters, digits and . _ : + -, or nothing' });
    return undefined;
  }
  const numbered = [...new Map(numbers.flatMap((number) => known.partsNumbered(number)).map((part) => [part.id, part])).values()];
  const here = numbered.filter((part) => slot === undefined || part.slot === slot.id);
  const [elsewhere] = numbered.filter((part) => slot !== undefined && part.slot !== slot.id);
  const given = row.first('maker').text;
  // A number alone does not tell two makers’ parts apart.
  const makers = given === '' ? [] : known.maker(given);
  const agrees = (part: Part): boolean => makers.length !== 1 || part.maker === makers[0]?.id;
  const agreeing = here.filter(agrees);
  if (agreeing.length > 1) {
    row.fault(numberColumn, {
      found: shown(numbers.join('; ')),
      expected: `numbers of one part; they are those of ${list(agreeing.slice(0, 4).map(({ id }) => id))}`,
    });
    return undefined;
  }
  const [found] = agreeing;
  if (idCell.text !== '') {
    if (found === undefined) return null;
    row.fault(idCell.column, { found: shown(idCell.text), expected: `${found.id}, whose number this is` });
    return undefined;
  }
  if (found !== undefined) return found;
  if (here.length === 0 && elsewhere !== undefined) {
    row.fault(numberColumn, {
      found: shown(numbers.join('; ')),
      expected: 'a number of its own',
      sentence: `The atlas has this number for a ${known.slotName(elsewhere.slot)}, ${elsewhere.name}, and the row is about a ${slot?.name}.`,
    });
    return undefined;
  }
  if (numbers.length > 0 || nameCell.text === '' || slot === undefined) return null;
  const alike = known
    .partsCalled(nameCell.text)
    .filter((part) => part.slot === slot.id && tight(part.name) === tight(nameCell.text) && agrees(part));
  if (alike.length > 1) {
    row.fault(nameCell.column, { found: shown(nameCell.text), expected: oneCalledSo(alike.slice(0, 4).map(({ id }) => id)) });
    return undefined;
  }
  return alike[0] ?? null;
};

const aboutOf = (
  row: Row,
  { known, matching }: Taking,
  isTaken: (id: string) => boolean,
  makerOf: (row: Row, column: number | null, text: string) => MakerId | null | undefined,
): About | null => {
  const read = numbersIn(row);
  const { texts: numbers } = read;
  // Where a cell that tells which part it is cannot be taken at its word, nothing else is said of the row for want of it.
  const telling = ['id', 'slot', 'name', 'numbers'].flatMap((is) => row.all(is as 'id').map(({ column }) => column));
  if (row.faults.some(({ column }) => column !== null && telling.includes(column))) return null;
  const said = slotIn(row, known);
  if (said === undefined) return null;
  const slot = said ?? known.beside.slots.find(({ id }) => id === matching.slot);
  const before = partIn(row, read, slot, known);
  if (before === undefined) return null;
  const [idCell, slotCell, nameCell] = [row.first('id'), row.first('slot'), row.first('name')];
  if (before !== null) {
    const own = known.beside.slots.find(({ id }) => id === before.slot) as Slot;
    if (said !== null && said.id !== own.id) {
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
  gather: Gathered,
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
    ownNumbers = edited ? numbers : [...before.numbers, ...fresh];
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

const samePart = (a: Part, b: Part): boolean =>
  a.name === b.name &&
  a.maker === b.maker &&
  a.patternOf === b.patternOf &&
  a.supersedes === b.supersedes &&
  a.source === b.source &&
  JSON.stringify(a.numbers) === JSON.stringify(b.numbers) &&
  Object.keys(a.facts).length === Object.keys(b.facts).length &&
  (Object.entries(a.facts) as [FeatureId, Fact][]).every(([id, fact]) => b.facts[id] !== undefined && sameFact(fact, b.facts[id]));

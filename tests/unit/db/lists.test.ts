import { getTableColumns } from 'drizzle-orm';
import { describe, expect, test } from 'vitest';
import type { Named } from '../../../db/atlas/list.ts';
import { type Entries, everyList, type ListName } from '../../../db/atlas/lists.ts';
import { emptyAtlas } from '../../../db/atlas/pack.ts';
import { crossCheckFiles } from '../../../db/packs/cross-check.ts';
import { lookupsFor } from '../../../db/packs/lookups.ts';
import { Faults } from '../../../db/read/faults.ts';
import { demoPack } from '../seed/demo-atlas.ts';

/** Every place a way leads to, as paths. */
const pathsAlong = (value: unknown, way: readonly string[], path: readonly (string | number)[] = []): (readonly (string | number)[])[] => {
  const [step, ...rest] = way;
  if (value === null || value === undefined) return [];
  if (step === undefined) return [path];
  if (step === '*') return (value as readonly unknown[]).flatMap((each, index) => pathsAlong(each, rest, [...path, index]));
  return pathsAlong((value as Readonly<Record<string, unknown>>)[step], rest, [...path, step]);
};

const withAt = (value: unknown, path: readonly (string | number)[], put: unknown): unknown => {
  const [step, ...rest] = path;
  if (step === undefined) return put;
  if (Array.isArray(value)) return value.map((each, index) => (index === step ? withAt(each, rest, put) : each));
  const of = value as Readonly<Record<string, unknown>>;
  return { ...of, [step]: withAt(of[step as string], rest, put) };
};

describe('[A6] every list of the atlas', () => {
  test('[A6] keeps each field in a column of its name, in a table beside it, or as it says itself', () => {
    for (const { name, table, fields, children, toEntry } of everyList) {
      const columns = getTableColumns(table);
      const empty = Object.fromEntries(Object.keys(columns).map((key) => [key, null]));
      const none = { models: new Map(), parts: new Map(), features: new Map() };
      // What is said of full rows, too: wear and the like are left out of empty ones.
      const full = Object.fromEntries(Object.keys(columns).map((key) => [key, 1]));
      const said = new Set(
        [toEntry(empty, none), toEntry(full, none), ...children.map(({ read }) => read([], none)), ...openEnded].flatMap(Object.keys),
      );
      expect(
        fields.filter((field) => !(field.name in columns) && !said.has(field.name)).map((field) => field.name),
        name,
      ).toEqual([]);
    }
  });
  // Said only where there are rows.
  const openEnded = [{ openEnded: [] }];

  test('[A6] a reference that leads nowhere is found, in whichever list and at whichever place', () => {
    const pack = demoPack;
    const told: string[] = [];
    for (const { name, references } of everyList) {
      for (const { at } of references) {
        const entries: readonly Named[] = pack[name];
        const index = entries.findIndex((entry) => pathsAlong(entry, at).length > 0);
        if (index === -1) continue;
        const path = pathsAlong(entries[index], at).at(-1) as readonly (string | number)[];
        const files = { ...pack, [name]: withAt(entries, [index, ...path], 'nobody') } as Entries;
        const faults = new Faults(50);
        crossCheckFiles(
          files,
          emptyAtlas,
          lookupsFor(files, emptyAtlas, faults),
          (list: ListName, where) => ({ file: list, column: where.join('.') }),
          faults,
        );
        const fault = faults.found.find(({ file, column }) => file === name && column === [index, ...path].join('.'));
        expect(fault?.found, `${name} ${at.join('.')}`).toBe('"nobody"');
        told.push(`${name}.${at.join('.')}`);
      }
    }
    expect(told.length).toBeGreaterThan(25);
  });
});

import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { vocabularyLists } from '../../../db/packs/mapped-word.ts';

/** Ids of vocabulary entries and of options as another shop calls them; what is not in it keeps its name. */
export type OtherIds = ReadonlyMap<string, string>;

/** What is said in words, or is a word of the format, and no id though it may be spelt like one. */
const noIds = new Set(
  'name title alsoCalled said short more look basis sentence kind group drawing unit says instrument way leaves what words text note token demands because story claimed value token is'.split(
    ' ',
  ),
);

const renamed = (value: unknown, ids: OtherIds, skips: ReadonlySet<string>): unknown => {
  if (typeof value === 'string') return ids.get(value) ?? value;
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((each) => renamed(each, ids, skips));
  return Object.fromEntries(
    Object.entries(value).map(([key, of]) => {
      // A remark and an entry of a sheet hold an option in their value.
      if (key === 'value' && typeof of === 'object') return [key, renamed(of, ids, new Set(skips).add('kind'))];
      if (key === 'chosen')
        return [key, Object.fromEntries(Object.entries(of as object).map(([slot, part]) => [ids.get(slot) ?? slot, part]))];
      if (key === 'holes' && !Array.isArray(of) && typeof of === 'object')
        return [key, Object.fromEntries(Object.entries(of as object).map(([size, hole]) => [ids.get(size) ?? size, hole]))];
      return [key, skips.has(key) ? of : renamed(of, ids, skips)];
    }),
  );
};

/** Writes a pack's folder as a shop would have written it that calls these ids otherwise. Written apart from how the program maps: text by text, field by field. */
export const writeInOtherWords = (from: string, to: string, ids: OtherIds, head: object): void => {
  for (const path of readdirSync(from, { recursive: true, encoding: 'utf8' })) {
    if (!/\.(json|csv)$/.test(path) || path === 'datapackage.json') continue;
    const text = readFileSync(join(from, path), 'utf8');
    const file = join(to, path);
    mkdirSync(dirname(file), { recursive: true });
    if (path === 'pack.json') writeFileSync(file, JSON.stringify({ ...JSON.parse(text), ...head }, null, 2));
    else if (path.endsWith('.json')) {
      const isWords = (vocabularyLists as readonly string[]).includes(path.replace('.json', ''));
      const skips = isWords ? noIds : new Set(noIds).add('id');
      writeFileSync(file, JSON.stringify(renamed(JSON.parse(text), ids, skips), null, 2));
    } else writeFileSync(file, rowsRenamed(path, text, ids));
  }
};

/** No cell of these columns is ever quoted. */
const rowsRenamed = (file: string, text: string, ids: OtherIds): string => {
  const called = (id: string) => ids.get(id) ?? id;
  if (file === 'parts.csv')
    return text
      .replace(
        /^([^,\n]*),([^,\n]*),(.*),([^,\n]*)$/gm,
        (_all, id, slot, rest, source) => `${id},${called(slot)},${rest},${called(source)}`,
      )
      .replace(/^id,.*$/m, 'id,slot,name,maker,numbers,pattern_of,supersedes,source');
  if (file === 'allowed.csv')
    return text
      .replace(/^([^,\n]*),([^,\n]*),/gm, (_all, model, slot) => `${model},${called(slot)},`)
      .replace(/^model,.*$/m, 'model,slot,part,role');
  return text
    .replace(
      /^([^,\n]*),([^,\n]*),("[^"\n]*"|[^,\n]*),([^,\n]*),([^,\n]*),([^,\n]*),([^,\n]*)$/gm,
      (_all, part, feature, value, lower, upper, code, source) =>
        [part, called(feature), value.split('|').map(called).join('|'), lower, upper, code, called(source)].join(','),
    )
    .replace(/^part,.*$/m, 'part,feature,value,lower,upper,code,source');
};

import { deserialize, serialize } from 'node:v8';
import type { Atlas, Fact, Model, Part } from '../../reasoner/index.ts';

/*
 * An atlas as bytes, to be had back as quickly as memory can be filled: parts, their facts and the lists they stand in as columns of numbers that lead into
 * tables of what they say, everything else as Node writes it. What was one object before is one object after.
 */

/** Objects of few sorts, as columns: of each object which keys it has, and for each key where its values are found. */
interface Table {
  readonly shapes: readonly (readonly string[])[];
  readonly shapeOf: Uint16Array;
  readonly columns: Readonly<Record<string, Column>>;
}

interface Column {
  /** At or above zero twice a place among the texts, or among the lists of texts and one more; below, a place in `others`, counted from -1. */
  readonly at: Int32Array;
  readonly others: readonly unknown[];
}

/** Lists of texts: how long each is; and, list after list, places among the texts. */
interface TextLists {
  readonly many: Int32Array;
  readonly of: Int32Array;
}

interface FactColumns {
  readonly kinds: Uint8Array;
  /** In turn: three of a measure, two of a count. */
  readonly sizes: Float64Array;
  /** In turn: of a measure the place of its code among the texts, -1 where it has none; of a choice or mark that of its alternatives among the lists of texts. */
  readonly says: Int32Array;
}

interface Bytes {
  /** The lists of the atlas, in their order. */
  readonly fields: readonly (keyof Atlas)[];
  readonly atlas: Omit<Atlas, 'parts' | 'models'>;
  /** Their lists of parts hold nothing. */
  readonly models: readonly Model[];
  readonly texts: readonly string[];
  readonly lists: TextLists;
  readonly parts: Table;
  readonly facts: FactColumns;
  /** Which features a part has facts of, in which order; and, part after part, which facts. */
  readonly featureLists: readonly (readonly string[])[];
  readonly featuresOf: Int32Array;
  readonly factsOf: Int32Array;
  readonly allowed: Table;
  /** How many a model has, and, model after model, which. */
  readonly allowedMany: Int32Array;
  readonly allowedOf: Int32Array;
}

/** After so many objects others have their turn. */
const atOnce = 4096;

/** @param pause awaited now and then, so that nothing else waits; what it throws ends the work */
export const bytesOfAtlas = async (atlas: Atlas, pause: () => Promise<unknown>): Promise<Uint8Array> => {
  const { parts, models, ...rest } = atlas;
  const texts = new Texts();
  const facts = new Numbered<Fact>();
  const featureLists = new Shapes();
  const featuresOf = new Int32Array(parts.length);
  const factsOf = new Growing();
  for (const [at, part] of parts.entries()) {
    if (at % atOnce === 0) await pause();
    featuresOf[at] = featureLists.of(part.facts);
    for (const fact of Object.values(part.facts)) factsOf.push(facts.of(fact));
  }
  const entries = new Numbered<Model['allowed'][number]>();
  const allowedMany = new Int32Array(models.length);
  const allowedOf = new Growing();
  for (const [at, { allowed }] of models.entries()) {
    if (at % atOnce === 0) await pause();
    allowedMany[at] = allowed.length;
    for (const entry of allowed) allowedOf.push(entries.of(entry));
  }
  const bytes: Bytes = {
    fields: Object.keys(atlas) as (keyof Atlas)[],
    atlas: rest,
    models: models.map((model) => ({ ...model, allowed: [] })),
    parts: await tableOf(parts, 'facts', texts, pause),
    facts: await factColumnsOf(facts.all, texts, pause),
    featureLists: featureLists.all,
    featuresOf,
    factsOf: factsOf.all(),
    allowed: await tableOf(entries.all, null, texts, pause),
    allowedMany,
    allowedOf: allowedOf.all(),
    // Last, when all have been met.
    texts: texts.all,
    lists: texts.lists(),
  };
  await pause();
  return serialize(bytes);
};

/** The atlas again, deeply the same. Throws on bytes that were not made by `bytesOfAtlas` of this program. */
export const atlasOfBytes = (bytes: Uint8Array): Atlas => {
  const { fields, atlas, models, texts, lists, parts, facts, featureLists, featuresOf, factsOf, allowed, allowedMany, allowedOf } =
    deserialize(bytes) as Bytes;
  const said: Said = { texts, lists: listsIn(lists, texts) };
  const known = factsIn(facts, said);
  const firsts = featureLists.map((ids) => Object.fromEntries(ids.map((id) => [id, known[0] as Fact])));
  let at = 0;
  const recordOf = (part: number): Part['facts'] => {
    const list = featuresOf[part] as number;
    const ids = featureLists[list] as readonly string[];
    // A copy has its room already; grown key by key it would be made over several times.
    const record: Record<string, Fact> = { ...firsts[list] };
    for (let n = 0; n < ids.length; n += 1) record[ids[n] as string] = known[factsOf[at + n] as number] as Fact;
    at += ids.length;
    return record;
  };
  const entries = objectsIn(allowed, null, said) as unknown as readonly Model['allowed'][number][];
  let from = 0;
  const allowedIn = (model: number): Model['allowed'] => {
    const many = allowedMany[model] as number;
    const list = new Array<Model['allowed'][number]>(many);
    for (let n = 0; n < many; n += 1) list[n] = entries[allowedOf[from + n] as number] as Model['allowed'][number];
    from += many;
    return list;
  };
  const whole: Atlas = {
    ...atlas,
    models: models.map((model, n) => Object.assign(model, { allowed: allowedIn(n) })),
    parts: objectsIn(parts, { key: 'facts', of: recordOf }, said) as unknown as readonly Part[],
  };
  return Object.fromEntries(fields.map((field) => [field, whole[field]])) as unknown as Atlas;
};

class Numbered<T> {
  readonly #numbers = new Map<T, number>();
  readonly all: T[] = [];

  of(value: T): number {
    const known = this.#numbers.get(value);
    if (known !== undefined) return known;
    this.#numbers.set(value, this.all.length);
    return this.all.push(value) - 1;
  }
}

/** Texts, and lists of them, each once. */
class Texts extends Numbered<string> {
  readonly #lists = new Numbered<readonly string[]>();

  ofList(list: readonly string[]): number {
    return this.#lists.of(list);
  }

  lists(): TextLists {
    const of = new Growing();
    for (const list of this.#lists.all) for (const text of list) of.push(this.of(text));
    return { many: Int32Array.from(this.#lists.all, ({ length }) => length), of: of.all() };
  }
}

interface Said {
  readonly texts: readonly string[];
  readonly lists: readonly (readonly string[])[];
}

const listsIn = ({ many, of }: TextLists, texts: readonly string[]): readonly (readonly string[])[] => {
  let from = 0;
  return Array.from(many, (length) => {
    const list = new Array<string>(length);
    for (let n = 0; n < length; n += 1) list[n] = texts[of[from + n] as number] as string;
    from += length;
    return list;
  });
};

const isTextList = (value: unknown): value is readonly string[] => Array.isArray(value) && value.every((each) => typeof each === 'string');

class Shapes {
  readonly #numbers = new Map<string, number>();
  readonly all: (readonly string[])[] = [];

  of(object: object): number {
    const keys = Object.keys(object);
    const text = keys.join('\n');
    const known = this.#numbers.get(text);
    if (known !== undefined) return known;
    this.#numbers.set(text, this.all.length);
    return this.all.push(keys) - 1;
  }
}

class Growing {
  #numbers = new Int32Array(1024);
  #many = 0;

  push(value: number): void {
    if (this.#many === this.#numbers.length) {
      const before = this.#numbers;
      this.#numbers = new Int32Array(2 * before.length);
      this.#numbers.set(before);
    }
    this.#numbers[this.#many] = value;
    this.#many += 1;
  }

  all(): Int32Array {
    return this.#numbers.slice(0, this.#many);
  }
}

const tableOf = async (objects: readonly object[], apart: string | null, texts: Texts, pause: () => Promise<unknown>): Promise<Table> => {
  const shapes = new Shapes();
  const shapeOf = new Uint16Array(objects.length);
  const columns = new Map<string, { readonly at: Int32Array; readonly others: Numbered<unknown> }>();
  for (const [n, object] of objects.entries()) {
    if (n % atOnce === 0) await pause();
    const shape = shapes.of(object);
    if (shape >= 2 ** 16) throw new Error('objects of too many sorts for a table');
    shapeOf[n] = shape;
    for (const [key, value] of Object.entries(object)) {
      if (key === apart) continue;
      const column = columns.get(key) ?? { at: new Int32Array(objects.length), others: new Numbered<unknown>() };
      columns.set(key, column);
      column.at[n] =
        typeof value === 'string' ? 2 * texts.of(value) : isTextList(value) ? 2 * texts.ofList(value) + 1 : -1 - column.others.of(value);
    }
  }
  return {
    shapes: shapes.all,
    shapeOf,
    columns: Object.fromEntries([...columns].map(([key, { at, others }]) => [key, { at, others: others.all }])),
  };
};

/** @param apart the key whose value is not in the table: asked for object after object */
const objectsIn = (
  { shapes, shapeOf, columns }: Table,
  apart: { readonly key: string; readonly of: (object: number) => unknown } | null,
  { texts, lists }: Said,
): readonly object[] => {
  const firsts = shapes.map((keys) => Object.fromEntries(keys.map((key) => [key, null])) as Record<string, unknown>);
  const said = shapes.map((keys) => keys.map((key) => (key === apart?.key ? null : (columns[key] as Column))));
  const objects = new Array<object>(shapeOf.length);
  for (let n = 0; n < shapeOf.length; n += 1) {
    const shape = shapeOf[n] as number;
    const [keys, of] = [shapes[shape] as readonly string[], said[shape] as readonly (Column | null)[]];
    const object: Record<string, unknown> = { ...firsts[shape] };
    for (let k = 0; k < keys.length; k += 1) {
      const column = of[k] as Column | null;
      if (column === null) {
        object[keys[k] as string] = apart?.of(n);
        continue;
      }
      const at = column.at[n] as number;
      object[keys[k] as string] = at < 0 ? column.others[-1 - at] : (at & 1) === 0 ? texts[at >> 1] : lists[at >> 1];
    }
    objects[n] = object;
  }
  return objects;
};

const numberOfKind: Readonly<Record<Fact['kind'], number>> = { count: 0, measure: 1, choice: 2, presence: 3, mark: 4, 'not known': 5 };
const kinds = Object.keys(numberOfKind) as readonly Fact['kind'][];

/** The kind, and beside it whether a presence is one, or a mark may be blank. */
const kindOf = (fact: Fact): number =>
  2 * numberOfKind[fact.kind] + Number(fact.kind === 'presence' ? fact.present : fact.kind === 'mark' && fact.blank);

const factColumnsOf = async (facts: readonly Fact[], texts: Texts, pause: () => Promise<unknown>): Promise<FactColumns> => {
  const [sizes, says]: [number[], number[]] = [[], []];
  for (const [n, fact] of facts.entries()) {
    if (n % atOnce === 0) await pause();
    if (fact.kind === 'count') sizes.push(fact.from, fact.to);
    if (fact.kind === 'measure') {
      sizes.push(fact.nominal, fact.lower, fact.upper);
      says.push(fact.code === undefined ? -1 : texts.of(fact.code));
    }
    if (fact.kind === 'choice' || fact.kind === 'mark') says.push(texts.ofList(fact.anyOf));
  }
  return { kinds: Uint8Array.from(facts, kindOf), sizes: Float64Array.from(sizes), says: Int32Array.from(says) };
};

const factsIn = ({ kinds: of, sizes, says }: FactColumns, { texts, lists }: Said): readonly Fact[] => {
  let [size, say] = [0, 0];
  const nextSize = (): number => {
    size += 1;
    return sizes[size - 1] as number;
  };
  const nextSay = (): number => {
    say += 1;
    return says[say - 1] as number;
  };
  const factOf = (packed: number): Fact => {
    const kind = kinds[packed >> 1] as Fact['kind'];
    switch (kind) {
      case 'count':
        return { kind, from: nextSize(), to: nextSize() };
      case 'measure': {
        const nominal = nextSize();
        const lower = nextSize();
        const upper = nextSize();
        const code = texts[nextSay()];
        return code === undefined ? { kind, nominal, lower, upper } : { kind, nominal, lower, upper, code };
      }
      case 'choice':
        return { kind, anyOf: lists[nextSay()] as readonly string[] };
      case 'mark':
        return { kind, anyOf: lists[nextSay()] as readonly string[], blank: (packed & 1) === 1 };
      case 'presence':
        return { kind, present: (packed & 1) === 1 };
      case 'not known':
        return { kind };
    }
  };
  return Array.from(of, factOf);
};

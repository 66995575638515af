import { hash } from 'node:crypto';
import type { Named } from '../atlas/list.ts';
import { listsAndParts } from '../atlas/lists.ts';
import type { Pack } from '../atlas/pack.ts';
import type { Version } from '../plain/version.ts';

type AnyList = (typeof listsAndParts)[number];

/**
 * The version of what is reasoned over of a pack (H5): all but what it is called and its samples, so that an edition that says the same has the same. It is the sum
 * of the hashes of its entries, of what each list has in which order, and of what may sit where, modulo 2^256: when an entry says something else, what it said is
 * taken off and what it says put on, and nothing else is read.
 */
export const contentOfPack = (pack: Pack): Version => {
  const sum = new Sum();
  for (const list of listsAndParts) {
    const entries = pack[list.name] as readonly Named[];
    sum.add(`${list.name} in order\n${entries.map(({ id }) => id).join('\n')}`);
    for (const entry of entries) sum.add(entryText(list, entry));
  }
  for (const { model, slot, part, role } of pack.allowed) sum.add(`allowed\n${[model, slot, part, role].join('\n')}`);
  return sum.said();
};

/** Whether a version is such a sum. Those of packs that were last written before there were any are not. */
export const isSum = (content: string | null): content is Version => content !== null && /^sum-[0-9a-f]{64}$/.test(content);

/** The version of a pack of which these parts say something else, each in its place as before. */
export const contentMoved = (
  content: Version,
  before: readonly Pack['parts'][number][],
  after: readonly Pack['parts'][number][],
): Version => {
  const sum = new Sum(content);
  for (const part of before) sum.takeOff(entryText(parts, part));
  for (const part of after) sum.add(entryText(parts, part));
  return sum.said();
};

const parts = listsAndParts.at(-1) as AnyList;

/** Fields in the order of their schema; lines whose order says nothing by their keys. */
const entryText = (list: AnyList, entry: Named): string => {
  const said = new Map<string, unknown>(Object.entries(list.schema.parse(entry)));
  const lines: unknown[] = [];
  for (const { fields, ordered, linesOf } of list.keyed) {
    if (ordered) continue;
    for (const field of fields) said.delete(field);
    lines.push([...linesOf(entry as never)].sort(([a], [b]) => (a < b ? -1 : 1)));
  }
  return `${list.name}\n${JSON.stringify([list.fields.map(({ name }) => said.get(name) ?? null), lines])}`;
};

const limbs = 8;
const base = 2 ** 32;

/** Of hashes, modulo 2^256. */
class Sum {
  /** The lowest first. */
  readonly #limbs: Uint32Array;

  constructor(from: Version | null = null) {
    this.#limbs = Uint32Array.from({ length: limbs }, (_, at) =>
      from === null ? 0 : Number.parseInt(from.slice('sum-'.length).slice(8 * (limbs - 1 - at), 8 * (limbs - at)), 16),
    );
  }

  add(text: string): void {
    let carry = 0;
    const added = hashOf(text);
    for (let at = 0; at < limbs; at += 1) {
      const sum = (this.#limbs[at] as number) + added.readUInt32LE(4 * at) + carry;
      this.#limbs[at] = sum;
      carry = sum >= base ? 1 : 0;
    }
  }

  takeOff(text: string): void {
    let borrow = 0;
    const taken = hashOf(text);
    for (let at = 0; at < limbs; at += 1) {
      const left = (this.#limbs[at] as number) - taken.readUInt32LE(4 * at) - borrow;
      this.#limbs[at] = left;
      borrow = left < 0 ? 1 : 0;
    }
  }

  said(): Version {
    return `sum-${[...this.#limbs]
      .reverse()
      .map((limb) => limb.toString(16).padStart(8, '0'))
      .join('')}` as Version;
  }
}

const hashOf = (text: string): Buffer => hash('sha256', text, 'buffer');

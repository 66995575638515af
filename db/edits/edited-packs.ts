import type { Named } from '../atlas/list.ts';
import { everyList } from '../atlas/lists.ts';
import { type Allowance, entriesIn, type Pack } from '../atlas/pack.ts';
import { editFault, isEdited, noSuchList, readEntry } from './entries.ts';
import type { Edit, EditFault } from './seen.ts';

/** The packs of the atlas by id, as they are reasoned over. */
export type Packs = ReadonlyMap<string, Pack>;

export interface EditedPacks {
  /** Those that are otherwise than before. */
  readonly edited: Packs;
  readonly faults: readonly EditFault[];
  /** The last edit of each thing, by `list id`. */
  readonly lastOf: ReadonlyMap<string, number>;
}

/** A pack with nothing in it. */
export const blankPack = (head: Pack['head']): Pack =>
  ({ head, ...Object.fromEntries(everyList.map(({ name }) => [name, []])), parts: [], allowed: [], sheets: [] }) as unknown as Pack;

/**
 * What edits make of the packs. What a pack has is altered there, in every pack that shares it; what none has goes into the shop's own. Pure; whether the result hangs together
 * is asked afterwards.
 * @param own the shop's own pack as it is, or blank
 */
export const editedPacks = (packs: Packs, own: Pack, edits: readonly Edit[]): EditedPacks => {
  const all = new Map<string, Draft>([...packs, [own.head.id, own] as const].map(([id, pack]) => [id, new Draft(pack)]));
  const ownDraft = all.get(own.head.id) as Draft;
  const faults: EditFault[] = [];
  const lastOf = new Map<string, number>();
  const stands = (list: string, id: string): boolean => [...all.values()].some((draft) => draft.has(list, id));
  for (const [index, edit] of edits.entries()) {
    if ('allow' in edit || 'disallow' in edit) {
      const { model, part } = 'allow' in edit ? edit.allow : edit.disallow;
      lastOf.set(`allowed ${model} ${part}`, index);
      const holder = [...all.values()].find((draft) => draft.sits(model, part));
      if ('allow' in edit) (holder ?? ownDraft).allow(edit.allow);
      else if (holder === undefined) faults.push(editFault(index, 'allowed', model, part, 'no such part listed there', 'one that is'));
      else holder.disallow(model, part);
      continue;
    }
    if ('put' in edit) {
      const read = readEntry(index, edit.list, edit.put);
      if ('faults' in read) {
        faults.push(...read.faults);
        continue;
      }
      const { id } = read.entry;
      lastOf.set(`${edit.list} ${id}`, index);
      // What was dropped just now and is put again is still the entry of whose it was.
      const holders = [...all.values()].filter((draft) => draft.has(edit.list, id));
      const held = holders.length > 0 ? holders : [...all.values()].filter((draft) => draft.had(edit.list, id));
      for (const holder of held.length === 0 ? [ownDraft] : held) holder.put(edit.list, read.entry);
      continue;
    }
    lastOf.set(`${edit.list} ${edit.drop}`, index);
    const holders = [...all.values()].filter((draft) => draft.has(edit.list, edit.drop));
    if (holders.length === 0 && !isEdited(edit.list)) faults.push(noSuchList(index, edit.list, edit.drop));
    else if (holders.length === 0) faults.push(editFault(index, edit.list, edit.drop, null, 'no such entry', 'one that the atlas has'));
    for (const holder of holders) holder.drop(edit.list, edit.drop);
  }
  for (const [index, edit] of edits.entries()) {
    // One that goes itself in favour of another hands on what it was given.
    if (!('drop' in edit) || edit.into === undefined || stands(edit.list, edit.into)) continue;
    const { into } = edit;
    if (
      !edits
        .slice(index + 1)
        .some((later) => 'drop' in later && later.list === edit.list && later.drop === into && later.into !== undefined)
    )
      faults.push(
        editFault(index, edit.list, edit.drop, 'into', `“${into}”, which the atlas would not have`, 'an entry that stands afterwards'),
      );
  }
  return { edited: new Map([...all].flatMap(([id, draft]) => (draft.touched ? [[id, draft.pack()] as const] : []))), faults, lastOf };
};

/** A pack as it is being edited: entries keep their place, and new ones come last. */
class Draft {
  readonly #pack: Pack;
  readonly #lists = new Map<string, Map<string, Named>>();
  #allowed: Map<string, Allowance> | null = null;
  touched = false;

  constructor(pack: Pack) {
    this.#pack = pack;
  }

  has(list: string, id: string): boolean {
    return this.#list(list).has(id);
  }

  /** Whether it did before it was edited. */
  had(list: string, id: string): boolean {
    return entriesIn(this.#pack, list).some((entry) => entry.id === id);
  }

  put(list: string, entry: Named): void {
    this.touched = true;
    this.#list(list).set(entry.id, entry);
  }

  drop(list: string, id: string): void {
    this.touched = true;
    this.#list(list).delete(id);
  }

  sits(model: string, part: string): boolean {
    return this.#sitting().has(`${model} ${part}`);
  }

  allow(allowance: Allowance): void {
    this.touched = true;
    this.#sitting().set(`${allowance.model} ${allowance.part}`, allowance);
  }

  disallow(model: string, part: string): void {
    this.touched = true;
    this.#sitting().delete(`${model} ${part}`);
  }

  pack(): Pack {
    return {
      ...this.#pack,
      ...Object.fromEntries([...this.#lists].map(([name, entries]) => [name, [...entries.values()]])),
      ...(this.#allowed === null ? {} : { allowed: [...this.#allowed.values()] }),
    };
  }

  #list(name: string): Map<string, Named> {
    const known = this.#lists.get(name);
    if (known !== undefined) return known;
    const list = new Map(entriesIn(this.#pack, name).map((entry) => [entry.id, entry]));
    this.#lists.set(name, list);
    return list;
  }

  #sitting(): Map<string, Allowance> {
    this.#allowed ??= new Map(this.#pack.allowed.map((each) => [`${each.model} ${each.part}`, each]));
    return this.#allowed;
  }
}

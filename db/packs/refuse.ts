import { isDeepStrictEqual } from 'node:util';
import type { Named } from '../atlas/list.ts';
import { everyList, type ListName } from '../atlas/lists.ts';
import { compareEditions, fileOf, type Pack } from '../atlas/pack.ts';
import { type Trouble, TroubleError, trouble } from '../trouble.ts';
import { unnamedModels } from './check-models.ts';

/** Throws `pack-older`, or `pack-same-edition` for other contents under the edition the atlas holds. */
export const refuseOlder = (folder: string, pack: Pack, held: string): void => {
  const { id, edition } = pack.head;
  const order = compareEditions(edition, held);
  if (order < 0) {
    throw new TroubleError(
      trouble(
        'pack-older',
        `${folder}/pack.json`,
        `The atlas holds a newer edition of the pack "${id}" (${held}; this one is ${edition}). Nothing was changed.`,
      ),
    );
  }
  if (order === 0) {
    throw new TroubleError(
      trouble(
        'pack-same-edition',
        `${folder}/pack.json`,
        `The atlas holds the pack "${id}" in this same edition (${held}), but with other contents. Nothing was changed. Give the changed pack a new edition.`,
      ),
    );
  }
};

/** Something of a pack another has, or says otherwise. */
export interface Clash {
  readonly list: ListName | 'parts' | 'allowed' | 'sheets';
  readonly file: string;
  /** Its place in the list. */
  readonly index: number;
  readonly what: string;
  readonly how: string;
  readonly otherwise: string;
}

/** Terms may be shared by packs that agree on them; everything else belongs to one pack. In the order of the lists. */
export function* clashesOf(pack: Pack, others: readonly Pack[]): Generator<Clash> {
  const shared = everyList.filter((list) => list.shared);
  const owned = everyList.filter((list) => !list.shared);
  for (const { name, shared: is } of [...shared, ...owned, { name: 'parts', shared: false } as const]) {
    const known = new Map<string, unknown>(
      others.flatMap((other) => (other[name] as readonly Named[]).map((entry): [string, unknown] => [entry.id, entry])),
    );
    for (const [index, entry] of pack[name].entries()) {
      const other = known.get(entry.id);
      if (other === undefined || (is && isDeepStrictEqual(other, entry))) continue;
      yield {
        list: name,
        file: fileOf(name),
        index,
        what: `"${entry.id}"`,
        how: is
          ? 'is written otherwise in another pack of the atlas; packs that share a term must agree on it'
          : 'belongs to another pack of the atlas already',
        otherwise: is ? 'it to be said as another pack of the atlas says it' : 'an id no other pack of the atlas has',
      };
    }
  }
  const sitting = new Set(others.flatMap((other) => other.allowed.map(({ model, part }) => `${model} ${part}`)));
  for (const [index, { model, part }] of pack.allowed.entries()) {
    if (!sitting.has(`${model} ${part}`)) continue;
    yield {
      list: 'allowed',
      file: 'allowed.csv',
      index,
      what: `"${part}" in "${model}"`,
      how: 'is listed by another pack of the atlas already',
      otherwise: 'every part of a model to be listed by one pack',
    };
  }
  const taken = new Set<string>(others.flatMap((other) => other.sheets.map(({ id }) => id)));
  for (const [index, { id }] of pack.sheets.entries()) {
    if (!taken.has(id)) continue;
    yield {
      list: 'sheets',
      file: `sheets/${id}.json`,
      index,
      what: `the sheet "${id}"`,
      how: 'belongs to another pack of the atlas already',
      otherwise: 'an id no sheet of another pack has',
    };
  }
}

/** Throws `pack-clash` for the first of them. */
export const refuseClashes = (folder: string, pack: Pack, others: readonly Pack[]): void => {
  for (const { file, what, how } of clashesOf(pack, others))
    throw new TroubleError(trouble('pack-clash', `${folder}/${file}`, `The pack was not loaded: ${what} ${how}. Nothing was changed.`));
};

/** Refuses what would leave a model of any of these packs without a part its name rests on (A7). */
export const refuseUnnamed = (packs: readonly Pack[], refusal: (pack: string, model: string) => Trouble): void => {
  const [first] = unnamedModels(packs);
  if (first !== undefined) throw new TroubleError(refusal(first.pack, first.model.id));
};

export const leftUnnamed = (pack: string, model: string): string =>
  `the model "${model}" of the pack "${pack}" would be left with no part listed as names or option, on which its name rests.`;

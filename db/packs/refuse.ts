import { isDeepStrictEqual } from 'node:util';
import type { Named } from '../atlas/list.ts';
import { everyList } from '../atlas/lists.ts';
import { compareEditions, fileOf, type Pack } from '../atlas/pack.ts';
import { TroubleError, trouble } from '../trouble.ts';

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

/** Terms may be shared by packs that agree on them; everything else belongs to one pack. */
export const refuseClashes = (folder: string, pack: Pack, others: readonly Pack[]): void => {
  const clash = (file: string, what: string, how: string): never => {
    throw new TroubleError(trouble('pack-clash', `${folder}/${file}`, `The pack was not loaded: ${what} ${how}. Nothing was changed.`));
  };
  const shared = everyList.filter((list) => list.shared);
  const owned = everyList.filter((list) => !list.shared);
  for (const { name, shared: is } of [...shared, ...owned, { name: 'parts', shared: false } as const]) {
    const known = new Map<string, unknown>(
      others.flatMap((other) => (other[name] as readonly Named[]).map((entry): [string, unknown] => [entry.id, entry])),
    );
    for (const entry of pack[name]) {
      const other = known.get(entry.id);
      if (other === undefined || (is && isDeepStrictEqual(other, entry))) continue;
      clash(
        fileOf(name),
        `"${entry.id}"`,
        is
          ? 'is written otherwise in another pack of the atlas; packs that share a term must agree on it'
          : 'belongs to another pack of the atlas already',
      );
    }
  }
  const sitting = new Set(others.flatMap((other) => other.allowed.map(({ model, part }) => `${model} ${part}`)));
  for (const { model, part } of pack.allowed) {
    if (sitting.has(`${model} ${part}`)) clash('allowed.csv', `"${part}" in "${model}"`, 'is listed by another pack of the atlas already');
  }
  const taken = new Set<string>(others.flatMap((other) => other.sheets.map(({ id }) => id)));
  for (const { id } of pack.sheets)
    if (taken.has(id)) clash(`sheets/${id}.json`, `the sheet "${id}"`, 'belongs to another pack of the atlas already');
};

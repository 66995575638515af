import type { Driver, Reader } from '../driver/driver.ts';
import type { Version } from '../driver/version.ts';
import { type Plan, writePlanned } from '../driver/write-planned.ts';
import * as t from '../schema.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { atlasOfPacks } from './atlas-of-packs.ts';
import { noSuchPack, readHeld, stateOfHeld } from './held.ts';
import { type Alongside, batchOf, nothingAhead, planPackChange } from './plan-change.ts';
import { leftUnnamed, refuseUnnamed } from './refuse.ts';
import { standingOf } from './standing.ts';

/**
 * Takes a pack out of the atlas, its sample sheets with it; own sheets stay. It is the change to nothing, made as any other.
 * Throws `not-found`, and `pack-needed` while another pack leans on it, or speaks of something only this one has.
 */
export const removePack = (driver: Driver, id: string, at: string, alongside: Alongside | null = null): Promise<null> =>
  writePlanned(driver, (reader) => planRemoval(reader, id, at, alongside));

/** @param madeAgainst the version of the pack that was looked at; another is not taken out unseen */
export const planRemoval = async (
  reader: Reader,
  id: string,
  at: string,
  alongside: Alongside | null = null,
  madeAgainst?: Version,
): Promise<Plan<null>> => {
  const held = await readHeld(reader, id);
  if (held === null) throw new TroubleError(noSuchPack(id));
  const rows = await reader.orm.select({ id: t.packs.id, leansOn: t.packs.leansOn, hash: t.packs.hash }).from(t.packs);
  if (madeAgainst !== undefined && rows.find((row) => row.id === id)?.hash !== madeAgainst)
    throw new TroubleError(
      trouble(
        'changed-since',
        `pack ${id}`,
        `The pack "${id}" was changed since it was looked at, so it was left as it is. Look at it again.`,
      ),
    );
  const leaning = rows.find(({ leansOn }) => leansOn?.includes(id));
  if (leaning !== undefined)
    throw new TroubleError(
      trouble('pack-needed', `pack ${id}`, `The pack "${id}" was not removed: the pack "${leaning.id}" leans on it. Nothing was changed.`),
    );
  const standing = standingOf(reader, rows);
  refuseUnnamed(await standing.but(id), (pack, model) =>
    trouble('pack-needed', `pack ${id}`, `The pack "${id}" was not removed: ${leftUnnamed(pack, model)} Nothing was changed.`),
  );
  const change = await planPackChange(reader, await nothingAhead(reader), {
    pack: id,
    before: stateOfHeld(held),
    after: null,
    others: await standing.but(id),
    entry: { at, kind: 'pack removed', origin: `pack ${id}`, who: null, why: null, source: null },
    needed: ({ parent }) =>
      trouble(
        'pack-needed',
        `pack ${id}`,
        `The pack "${id}" was not removed: another pack of the atlas speaks of ${parent} that only this one has. Nothing was changed.`,
      ),
    step: () => undefined,
  });
  const also = alongside === null ? [] : await alongside(reader, atlasOfPacks(await standing.but(id)));
  return { batch: batchOf([change], also, () => undefined), value: null };
};

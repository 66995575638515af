import type { Pack } from '../atlas/pack.ts';
import { cellSeen } from '../changes/cell-seen.ts';
import { cellsOf, packOf } from '../changes/cells-of.ts';
import { applyTo, changeBetween, rebaseOnto } from '../changes/change.ts';
import type { Reader } from '../driver/driver.ts';
import { type Trouble, TroubleError, trouble } from '../trouble.ts';
import { editedPacks } from './edited-packs.ts';
import { whereText } from './entries.ts';
import { type Ground, packsAt } from './ground.ts';
import { checkNext, type Next, type Planned, type Setting } from './plan.ts';
import type { Edit, HeadId } from './seen.ts';

/** The shop's own pack; null where there is none yet. */
export const ownPackOf = (ground: Ground): Pack | null => {
  const row = ground.rows.find(({ own }) => own);
  return row === undefined ? null : (ground.held.get(row.id)?.pack as Pack);
};

/**
 * Edits as a change of the atlas as it stands, though they were made of the atlas at `head`: what others changed since stays (H4). Throws `changed-since` where
 * they changed the same, each place in `all`.
 */
export const planEdits = async (
  reader: Reader,
  ground: Ground,
  edits: readonly Edit[],
  head: HeadId,
  own: Pack,
  setting: Setting,
  warned = false,
): Promise<Planned> => {
  const then = await packsAt(reader, ground, head);
  if (then === null)
    throw new TroubleError(
      trouble(
        'changed-since',
        null,
        'The atlas was put back or mended since these words were made, so they were not taken in. Look at it anew, then decide.',
      ),
    );
  const { edited, faults, lastOf } = editedPacks(then, then.get(own.head.id) ?? own, edits);
  if (faults.length > 0) return { faults, warnings: [], checked: [] };
  const next = head === ground.head.id ? whole(edited, own) : rebased(ground, then, edited, own);
  return checkNext(ground, next, setting, { lastOf, warned });
};

const whole = (edited: ReadonlyMap<string, Pack>, own: Pack): Next =>
  new Map([...edited].sort(ownFirst(own)).map(([id, pack]) => [id, { pack }]));

/** Others speak of the shop's own, which has its numbers first. */
const ownFirst =
  (own: Pack) =>
  ([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number =>
    Number(b === own.head.id) - Number(a === own.head.id) || (a < b ? -1 : 1);

const rebased = (ground: Ground, then: ReadonlyMap<string, Pack>, edited: ReadonlyMap<string, Pack>, own: Pack): Next => {
  const next = new Map<string, { readonly pack: Pack }>();
  const disputed: Trouble[] = [];
  for (const [id, pack] of [...edited].sort(ownFirst(own))) {
    const present = ground.cellsOf(id);
    const had = (key: Parameters<typeof present.get>[0]) => present.get(key)?.at;
    const was = then.get(id);
    const before = was === undefined ? new Map() : cellsOf(was, had);
    const { effect, disputes } = rebaseOnto(
      changeBetween(
        before,
        cellsOf(pack, (key) => before.get(key)?.at ?? had(key)),
      ),
      present,
    );
    for (const { key } of disputes) {
      const { list, id: of, field, line } = cellSeen(key);
      disputed.push(trouble('changed-since', of, `${whereText(list, of, field, line)} was changed elsewhere in the meantime.`));
    }
    const cells = applyTo(present, effect);
    // Of a pack that was taken out meanwhile nothing is left to be said.
    if (cells.size > 0) next.set(id, { pack: packOf(id, cells) });
  }
  const [first] = disputed;
  if (first !== undefined)
    throw new TroubleError({
      ...trouble(
        'changed-since',
        first.place,
        `The atlas was changed elsewhere since this was opened here, so it was not saved over it: ${first.sentence} Look at both, then decide. Nothing was changed.`,
      ),
      all: disputed,
    });
  return next;
};

import type { ModelPage } from '../../db/answers.ts';
import type { PartId, Role, Sheet, SheetId, Slot, SlotId } from '../../reasoner/index.ts';
import { blankSheet } from '../../reasoner/plain/blank-sheet.ts';
import type { Edit } from '../bench/sheetEdits.ts';

export const emptyBuild = (id: SheetId): Sheet => ({ ...blankSheet(id), kind: 'planned', title: 'New build' });

export interface Begun {
  readonly sheet: Sheet;
  /** Slots for which the model lists several parts; the first of them was taken. */
  readonly several: readonly SlotId[];
}

const order: Record<Role, number> = { names: 0, option: 1, service: 2 };

/** A build that starts from a model's core: of each core slot the first part that carries the name, else the first option, else service part. */
export function buildFromCore(page: ModelPage, slots: readonly Slot[], id: SheetId): Begun {
  const chosen: Record<SlotId, PartId> = {};
  const several: SlotId[] = [];
  for (const { id: slot, group } of slots) {
    if (group !== 'core') continue;
    const listed = page.slots
      .filter((each) => each.slot === slot)
      .flatMap(({ parts }) => parts)
      .filter(({ part, inPlaceOf }) => part.kind === 'part' && inPlaceOf === undefined)
      .sort((a, b) => order[a.role] - order[b.role]);
    const first = listed[0]?.part;
    if (first?.kind !== 'part') continue;
    chosen[slot] = first.id;
    if (listed.length > 1) several.push(slot);
  }
  return { sheet: { ...emptyBuild(id), title: `${page.model.name} core, new build`, chosen }, several };
}

/** Puts a part into a slot, or takes it out; a slot with a part is not one left empty on purpose. */
export const withChosen =
  (slot: SlotId, part: PartId | null): Edit =>
  (sheet) => {
    const { [slot]: _, ...rest } = sheet.chosen;
    return withAllChosen(part === null ? rest : { ...rest, [slot]: part })(sheet);
  };

/** What was measured on a part goes out with it: it says nothing of the part that takes its place. */
export const withAllChosen =
  (chosen: Sheet['chosen']): Edit =>
  (sheet) => ({
    ...sheet,
    chosen: { ...chosen },
    absent: sheet.absent.filter((slot) => chosen[slot] === undefined),
    observations: sheet.observations.filter(({ slot }) => chosen[slot] === sheet.chosen[slot]),
  });

import { describe, expect, test } from 'vitest';
import { asId, type FeatureId, type Observation, type Sheet, type SheetId, type SlotId } from '../../../reasoner/index.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import {
  nextObservationId,
  nextObservationIds,
  together,
  withAbsent,
  withClaim,
  withClaimedMaker,
  withObservation,
  withObservationChanged,
  withoutObservation,
  withoutUnseen,
  withTitle,
  withUnseen,
} from '../../../renderer/bench/sheetEdits.ts';
import { isUnsaved, type Kept, unitAfter, unitOf } from '../../../renderer/bench/unit.ts';
import { whatMatters } from '../../../renderer/bench/whatMatters.ts';

const sheet = blankSheet(asId<SheetId>('s'));
const stored = (of: Sheet): Kept => ({ sheet: of, version: 'v' as Kept['version'], own: true, number: null });
const seven = (id: Observation['id']): Observation => ({
  id,
  slot: asId<SlotId>('compressor-wheel'),
  feature: asId<FeatureId>('full-blades'),
  value: { kind: 'count', from: 7, to: 7 },
  sure: { kind: 'seen' },
});

describe('the unit on the bench', () => {
  test('[O1] an entry taken off and undone is the sheet as it was kept, and there is nothing to save', () => {
    const kept = withObservation(seven(nextObservationId(sheet)))(sheet);
    let unit = unitOf(kept, stored(kept));
    expect(isUnsaved(unit)).toBe(false);
    unit = unitAfter(unit, { do: 'edit', edit: withoutObservation(kept.observations[0]?.id ?? asId('none')), typing: null });
    expect(isUnsaved(unit)).toBe(true);
    expect(isUnsaved(unitAfter(unit, { do: 'undo' }))).toBe(false);
  });

  test('[O1] a new sheet with nothing entered has nothing to lose; one letter of a title has', () => {
    const unit = unitOf(sheet, null);
    expect(isUnsaved(unit)).toBe(false);
    expect(isUnsaved(unitAfter(unit, { do: 'edit', edit: withTitle('G'), typing: 'title' }))).toBe(true);
  });

  test('[O1] what is typed while a save is on its way stays unsaved', () => {
    let unit = unitAfter(unitOf(sheet, null), { do: 'edit', edit: withTitle('Grey'), typing: 'title' });
    const sent = unit.history.present;
    unit = unitAfter(unit, { do: 'saving' });
    unit = unitAfter(unit, { do: 'edit', edit: withTitle('Grey unit'), typing: 'title' });
    unit = unitAfter(unit, { do: 'saved', kept: stored(sent), at: '2026-11-25T10:00:00.000Z' });
    expect(isUnsaved(unit)).toBe(true);
    expect(unit.history.present.title).toBe('Grey unit');
  });

  test('[O1] a save that fails keeps every entry and says why', () => {
    let unit = unitAfter(unitOf(sheet, null), { do: 'edit', edit: withTitle('Grey'), typing: 'title' });
    unit = unitAfter(unit, { do: 'not saved', trouble: { code: 'full', place: null, sentence: 'The disk is full.' } });
    expect(isUnsaved(unit)).toBe(true);
    expect(unit.saving).toMatchObject({ state: 'trouble', trouble: { sentence: 'The disk is full.' } });
  });

  test('[O1] a sheet whose stored copy was removed is unsaved again', () => {
    const kept = withTitle('Grey')(sheet);
    expect(isUnsaved(unitAfter(unitOf(kept, stored(kept)), { do: 'kept no more' }))).toBe(true);
  });

  test('[O1] a fresh entry never takes the id of another, whatever was removed before', () => {
    let one = sheet;
    for (let n = 0; n < 3; n += 1) one = withObservation(seven(nextObservationId(one)))(one);
    one = withoutObservation(asId('o2'))(one);
    expect(one.observations.map((each) => each.id)).not.toContain(nextObservationId(one));
  });

  test('[N6] a claim of white space is no claim', () => {
    expect(withClaim('  ')(sheet).claimed).toBeNull();
    expect(withClaim('Petrel 13')(sheet).claimed).toBe('Petrel 13');
  });

  test('[O1] changing an entry keeps its place, and marking a slot twice marks it once', () => {
    let one = withObservation(seven(asId('o2')))(withObservation(seven(asId('o1')))(sheet));
    one = withObservationChanged({ ...seven(asId('o1')), value: { kind: 'count', from: 6, to: 6 } })(one);
    expect(one.observations.map((each) => each.id)).toEqual(['o1', 'o2']);
    const slot = asId<SlotId>('heat-shield');
    expect(withAbsent(slot, true)(withAbsent(slot, true)(one)).absent).toEqual([slot]);
    expect(withAbsent(slot, false)(withAbsent(slot, true)(one)).absent).toEqual([]);
  });

  test('[O1] what could not be told is one answer for each feature, goes when the feature is seen, and stays when it is only told', () => {
    const why = { slot: asId<SlotId>('compressor-wheel'), feature: asId<FeatureId>('full-blades') } as const;
    const one = withUnseen({ ...why, why: 'no instrument' })(withUnseen({ ...why, why: 'could not see' })(sheet));
    expect(one.unseen).toEqual([{ ...why, why: 'no instrument' }]);
    expect(withObservation({ ...seven(asId('o1')), sure: { kind: 'told' } })(one).unseen).toEqual(one.unseen);
    expect(withObservation(seven(asId('o1')))(one)).not.toHaveProperty('unseen');
    expect(withoutUnseen(why.feature)(one)).toEqual(sheet);
    expect(isUnsaved(unitOf(one, null))).toBe(true);
  });

  test('[O1] every kind of change is undone and redone as one step: entries, answers that are none, absence, claim and maker, a paste', () => {
    const ids = nextObservationIds(sheet, 2);
    expect(new Set(ids).size).toBe(2);
    const edits = [
      withObservation(seven(asId('o9'))),
      withUnseen({ slot: asId('shaft'), feature: asId('journal'), why: 'may not be opened' }),
      withAbsent(asId('heat-shield'), true),
      withClaimedMaker(asId('merrowby')),
      withClaim('Petrel 13'),
      together([withTitle('Grey'), withClaim('Skua 13'), ...ids.map((id) => withObservation(seven(id)))]),
      withoutUnseen(asId('journal')),
      withoutObservation(asId('o9')),
    ];
    let unit = unitOf(sheet, null);
    const stages = [unit.history.present];
    for (const edit of edits) {
      unit = unitAfter(unit, { do: 'edit', edit, typing: null });
      stages.push(unit.history.present);
    }
    for (const stage of stages.slice(0, -1).reverse()) {
      unit = unitAfter(unit, { do: 'undo' });
      expect(unit.history.present).toEqual(stage);
    }
    expect(unit.history.past).toEqual([]);
    for (const stage of stages.slice(1)) {
      unit = unitAfter(unit, { do: 'redo' });
      expect(unit.history.present).toEqual(stage);
    }
  });

  test('[O1] title, story and notes have no say in the verdict, everything else has', () => {
    const full = {
      ...withClaim('Petrel 13')(withObservation({ ...seven(asId('o1')), note: 'through the inlet' })(sheet)),
      title: 'Grey',
      story: 'From the quay.',
    };
    const other = { ...full, title: 'Green', story: '', observations: [seven(asId('o1'))] };
    expect(whatMatters(other)).toEqual(whatMatters(full));
    expect(whatMatters(full)).toMatchObject({ claimed: 'Petrel 13', observations: [seven(asId('o1'))] });
    expect(whatMatters(withAbsent(asId('shaft'), true)(full))).not.toEqual(whatMatters(full));
  });
});

import type { CompiledAtlas } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { ObservationId, PartId, SlotId } from '../ids.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { seenPhrase } from '../words/phrases.ts';

/** One difference between two states of a sheet. */
export interface SheetChange {
  readonly kind: 'observation' | 'absent' | 'chosen' | 'claim' | 'unseen' | 'told about it';
  readonly observation: ObservationId | null;
  readonly slot: SlotId | null;
  readonly sentence: string;
}

/** A difference with what it does to the earlier state, taken by itself. */
export interface AppliedChange {
  readonly change: SheetChange;
  /** Null where no verdict can turn on it: titles, stories, what could not be seen. */
  readonly apply: ((sheet: Sheet) => Sheet) | null;
}

/** Everything in which two states of one sheet differ, in the order of the sheet. */
export const appliedChanges = (atlas: CompiledAtlas, was: Sheet, is: Sheet): AppliedChange[] => [
  ...claimChange(atlas, was, is),
  ...observationChanges(atlas, was, is),
  ...absentChanges(atlas, was, is),
  ...chosenChanges(atlas, was, is),
  ...wordChanges(was, is),
];

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

const claimChange = (atlas: CompiledAtlas, was: Sheet, is: Sheet): AppliedChange[] => {
  if (was.claimed === is.claimed && was.claimedMaker === is.claimedMaker) return [];
  const told = ({ claimed, claimedMaker }: Sheet): string => {
    const maker = claimedMaker === null ? '' : ` under ${atlas.makers.get(claimedMaker)?.name ?? claimedMaker}`;
    return claimed === null ? `nothing${maker}` : `“${claimed}”${maker}`;
  };
  return [
    {
      change: { kind: 'claim', observation: null, slot: null, sentence: `Offered as ${told(is)}; before, as ${told(was)}.` },
      apply: (sheet) => ({ ...sheet, claimed: is.claimed, claimedMaker: is.claimedMaker }),
    },
  ];
};

const observationChanges = (atlas: CompiledAtlas, was: Sheet, is: Sheet): AppliedChange[] => {
  const before = new Map(was.observations.map((one) => [one.id, one]));
  const after = new Map(is.observations.map((one) => [one.id, one]));
  const change = (one: Observation, sentence: string): SheetChange => ({
    kind: 'observation',
    observation: one.id,
    slot: one.slot,
    sentence,
  });
  return [
    ...was.observations
      .filter(({ id }) => !after.has(id))
      .map((one) => ({
        change: change(one, `Taken back: ${spoken(atlas, one)}.`),
        apply: (sheet: Sheet) => ({ ...sheet, observations: sheet.observations.filter(({ id }) => id !== one.id) }),
      })),
    ...is.observations.flatMap((one): AppliedChange[] => {
      const earlier = before.get(one.id);
      if (earlier === undefined)
        return [
          {
            change: change(one, `Entered: ${spoken(atlas, one)}.`),
            apply: (sheet) => ({ ...sheet, observations: [...sheet.observations, one] }),
          },
        ];
      if (same(earlier, one)) return [];
      const apply = (sheet: Sheet): Sheet => ({
        ...sheet,
        observations: sheet.observations.map((each) => (each.id === one.id ? one : each)),
      });
      const { note: _was, confirmed: unsure, ...plainWas } = earlier;
      const { note: _is, confirmed, ...plainIs } = one;
      // Neither a note nor a confirmation turns any verdict.
      return same(plainWas, plainIs)
        ? [
            {
              change: change(one, `${confirmed === unsure ? 'Noted anew' : 'Confirmed as it was read'}: ${spoken(atlas, one)}.`),
              apply: null,
            },
          ]
        : [{ change: change(one, `Corrected: ${spoken(atlas, one)}; before, ${spoken(atlas, earlier)}.`), apply }];
    }),
  ];
};

/** `compressor wheel, 7 blades (seen)`. */
const spoken = (atlas: CompiledAtlas, one: Observation): string => {
  const feature = atlas.features.get(one.feature);
  const what = feature === undefined ? one.feature : seenPhrase(feature, one);
  return `${slotNameOf(atlas, one.slot)}, ${what}${one.sure.kind === 'measured' ? '' : ` (${one.sure.kind})`}`;
};

const absentChanges = (atlas: CompiledAtlas, was: Sheet, is: Sheet): AppliedChange[] => [
  ...is.absent
    .filter((slot) => !was.absent.includes(slot))
    .map((slot) => ({
      change: { kind: 'absent' as const, observation: null, slot, sentence: `The ${slotNameOf(atlas, slot)} is marked as not there.` },
      apply: (sheet: Sheet) => ({ ...sheet, absent: [...sheet.absent, slot] }),
    })),
  ...was.absent
    .filter((slot) => !is.absent.includes(slot))
    .map((slot) => ({
      change: { kind: 'absent' as const, observation: null, slot, sentence: `The ${slotNameOf(atlas, slot)} is there after all.` },
      apply: (sheet: Sheet) => ({ ...sheet, absent: sheet.absent.filter((each) => each !== slot) }),
    })),
];

const chosenChanges = (atlas: CompiledAtlas, was: Sheet, is: Sheet): AppliedChange[] => {
  const slots = [...new Set([...Object.keys(was.chosen), ...Object.keys(is.chosen)])] as SlotId[];
  const part = (id: PartId | undefined): string => (id === undefined ? 'nothing' : (atlas.parts.get(id)?.name ?? id));
  return slots
    .filter((slot) => was.chosen[slot] !== is.chosen[slot])
    .map((slot) => ({
      change: {
        kind: 'chosen' as const,
        observation: null,
        slot,
        sentence: `Chosen for the ${slotNameOf(atlas, slot)}: ${part(is.chosen[slot])}; before, ${part(was.chosen[slot])}.`,
      },
      apply: (sheet: Sheet) => {
        const { [slot]: _gone, ...rest } = sheet.chosen as Record<SlotId, PartId>;
        const now = is.chosen[slot];
        return { ...sheet, chosen: now === undefined ? rest : { ...rest, [slot]: now } };
      },
    }));
};

/** What no verdict turns on, said so that nothing that was changed goes unsaid. */
const wordChanges = (was: Sheet, is: Sheet): AppliedChange[] => {
  const told = (sentence: string): AppliedChange => ({
    change: { kind: 'told about it', observation: null, slot: null, sentence },
    apply: null,
  });
  return [
    ...(was.title === is.title ? [] : [told(`Titled “${is.title}”; before, “${was.title}”.`)]),
    ...(was.serial === is.serial
      ? []
      : [
          told(
            `Serial number ${is.serial === undefined ? 'taken back' : `“${is.serial}”`}; before, ${was.serial === undefined ? 'none' : `“${was.serial}”`}.`,
          ),
        ]),
    ...(was.story === is.story ? [] : [told('The story was written anew.')]),
    ...(same(was.unseen ?? [], is.unseen ?? [])
      ? []
      : [
          {
            change: { kind: 'unseen' as const, observation: null, slot: null, sentence: 'What could not be seen was entered anew.' },
            apply: null,
          },
        ]),
  ];
};

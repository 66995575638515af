import type { Outcome } from '../../db/index.ts';
import type { CompiledAtlas, NameAnswer, NameId, Part, PartId, Sheet, SlotAnswer, SwapSet } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { Page, PartsOfSlot, PartTold, ReplacementTold } from '../bridge/verdict-calls.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { type Kept, KeptVerdicts } from './kept-verdicts.ts';
import { namesHolding } from './names-holding.ts';
import { answerAtOnce, countsOf, nameTold, swapTold } from './verdict-at-once.ts';

/** Verdicts on a sheet as it stands in the window: held against the atlas first, then reasoned over. What a verdict speaks of is told a page at a time, of the verdict that was made. */
export const verdictCalls = (kept: KeptAtlas, verdicts = new KeptVerdicts()): Calls<'verdict'> => {
  const judging = async (given: Sheet): Promise<Outcome<Judged>> => {
    const held = await kept.holding(given);
    if (!held.ok) return held;
    const { atlas, sheet } = held.value;
    const answered = verdicts.of(atlas, sheet);
    return answered.kind === 'contradiction' ? contradictory : well({ atlas, ...answered });
  };
  /** The name with its reasons; of a name not judged for the sheet there are none. */
  const explaining = async (given: Sheet, name: NameId, all = false): Promise<Outcome<Judged & { readonly name: NameAnswer }>> => {
    const judged = await judging(given);
    if (!judged.ok) return judged;
    const { brief, whole } = judged.value;
    const named = ({ name: { id } }: NameAnswer): boolean => id === name;
    return brief.spoken.some(named) || whole().names.some(named)
      ? well({ ...judged.value, name: judged.value.explained(name, all) })
      : refusal('not-found', 'name', `“${name}” is no name that was judged for this sheet.`);
  };
  return {
    'verdict.of': async (asked) => {
      const held = await kept.holding(asked.sheet);
      return held.ok ? well(answerAtOnce(verdicts.of(held.value.atlas, held.value.sheet).brief)) : held;
    },
    'verdict.names': async ({ sheet, statuses, text, ...asked }) => {
      const judged = await judging(sheet);
      if (!judged.ok) return judged;
      const found = namesHolding(judged.value.whole().names, text);
      const shown = found.filter(({ status }) => statuses.includes(status));
      return well({ ...pageOf(shown, asked, ({ conflicts: _, swaps: __, ...name }) => name), counts: countsOf(found) });
    },
    'verdict.parts': async ({ sheet, slot, of, ...asked }) => {
      const judged = await judging(sheet);
      if (!judged.ok) return judged;
      const { atlas, whole } = judged.value;
      const answer = whole().slots.find((one) => one.slot === slot);
      return answer === undefined
        ? refusal('not-found', 'slot', `“${slot}” is no slot of the atlas.`)
        : well(pageOf(partsIn(answer, of), asked, (row) => ({ ...row, name: nameOf(atlas, row.part) })));
    },
    'verdict.readings': async ({ sheet, ...asked }) => {
      const judged = await judging(sheet);
      return judged.ok ? well(pageOf(judged.value.brief.claim?.others ?? [], asked, (read) => read)) : judged;
    },
    'verdict.explain': async ({ sheet, name, all }) => {
      const explained = await explaining(sheet, name, all);
      return explained.ok ? well(nameTold(explained.value.name)) : explained;
    },
    'verdict.reasons': async ({ sheet, name, all, ...asked }) => {
      if (name === null) {
        const judged = await judging(sheet);
        return judged.ok ? well(pageOf(judged.value.brief.unit.found, asked, (conflict) => conflict)) : judged;
      }
      const explained = await explaining(sheet, name, all);
      return explained.ok ? well(pageOf(explained.value.name.conflicts?.found ?? [], asked, (conflict) => conflict)) : explained;
    },
    'verdict.swaps': async ({ sheet, name, ...asked }) => {
      const explained = await explaining(sheet, name);
      return explained.ok ? well(pageOf(explained.value.name.swaps?.found ?? [], asked, swapTold)) : explained;
    },
    'verdict.replacements': async ({ sheet, name, slots, slot, ...asked }) => {
      const explained = await explaining(sheet, name);
      if (!explained.ok) return explained;
      const set = explained.value.name.swaps?.found.find((one) => one.slots.join('\n') === slots.join('\n'));
      return set === undefined
        ? refusal('not-found', 'slots', 'No such exchange would bring this name back.')
        : well(pageOf(replacementsIn(set, slot), asked, (row) => ({ ...row, name: nameOf(explained.value.atlas, row.part) })));
    },
  };
};

type Judged = Extract<Kept, { readonly kind: 'verdict' }> & { readonly atlas: CompiledAtlas };

const contradictory = refusal('contradiction', null, 'Observations contradict each other; no name is judged until they are settled.');

/** The rows that are asked for, told, and how many there are. */
const pageOf = <Row, Told>(
  rows: readonly Row[],
  { from, count }: { readonly from: number; readonly count: number },
  tell: (row: Row) => Told,
): Page<Told> => ({ count: rows.length, rows: rows.slice(from, from + count).map(tell) });

const nameOf = (atlas: CompiledAtlas, part: PartId): string => (atlas.parts.get(part) as Part).name;

const partsIn = (slot: SlotAnswer, of: PartsOfSlot): readonly Omit<PartTold, 'name'>[] => {
  switch (of) {
    case 'left':
      return slot.candidates.map((part) => ({ part, because: null, features: [] }));
    case 'beside':
      return slot.removedByJoints.map(({ part, because }) => ({ part, because, features: [] }));
    case 'machined':
      return slot.machined.map(({ part }) => ({ part, because: null, features: [] }));
    case 'silent':
      return slot.silent.map(({ part, features }) => ({ part, because: null, features }));
  }
};

const replacementsIn = (set: SwapSet, slot: SwapSet['slots'][number]): readonly Omit<ReplacementTold, 'name'>[] => {
  const choice = set.parts.find((one) => one.slot === slot);
  const needs = new Map(choice?.needs.flatMap(({ parts, sentences }) => parts.map((part) => [part, sentences] as const)));
  const parts = choice?.parts ?? [];
  const dropIn = parts.filter((part) => !needs.has(part));
  return [...dropIn, ...parts.filter((part) => needs.has(part))].map((part) => ({ part, needs: needs.get(part) ?? [] }));
};

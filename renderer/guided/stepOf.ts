import type { FeatureId, ObservationId, Sheet, SlotId } from '../../reasoner/index.ts';
import { type Label, label, type Said, say, typed } from '../help/said.ts';
import type { Route, Screen } from '../route/route.ts';
import { type CaseEntry, type CaseHere, enteredFor, saysSo } from './firstCase.ts';

/** What a step points at: a control by what it is called, a link by where it leads, an entry, or the place of its value. */
export type PointedAt =
  | { readonly at: 'control'; readonly label: Label }
  | { readonly at: 'link'; readonly to: Route }
  | { readonly at: 'entry'; readonly entry: ObservationId }
  | { readonly at: 'value' };

export interface GuidedStep {
  /** From 1; 0 before it begins, `stepsOf` once all is done. */
  readonly number: number;
  readonly what: Said;
  readonly why: string;
  readonly point: PointedAt | null;
}

/** What the place in the case is read from. */
export interface WhereNow {
  readonly screen: Screen;
  readonly sheet: Sheet;
  /** Whether the sheet is stored: then it is somebody's, and not to be written on. */
  readonly stored: boolean;
  readonly entering: { readonly slot: SlotId; readonly feature: FeatureId } | null;
  /** Whether the words for the ticket of this sheet were copied. */
  readonly copied: boolean;
}

/** The number of the end: after maker, name, the entries, the part that is missing, and the words copied. */
export const stepsOf = (one: CaseHere): number => 2 + one.entries.length + 1 + 1 + 1;

/** The first step of the case that is not done, as the sheet shows it: nothing is remembered, so that it can be left and taken up anywhere. */
export const stepOf = (one: CaseHere, now: WhereNow): GuidedStep => {
  const { screen } = now;
  if (isOther(one, now)) return beginStep(screen);
  const step = sheetStep(one, now) ?? endStep(one, now);
  if (screen.screen === 'unit' || step.point === null) return step;
  return {
    ...step,
    what: say`It goes on at ${label('Unit')}: press it in the bar.`,
    why: 'What is entered there is kept.',
    point: unitLink,
  };
};

const unitLink: PointedAt = { at: 'link', to: { screen: 'unit' } };

/** Whether another unit is on the bench, which is left as it is. */
const isOther = (one: CaseHere, { sheet, stored }: WhereNow): boolean => {
  if (sheet.kind !== 'found') return true;
  const own = sheet.observations.filter((seen) =>
    one.entries.some((entry) => entry.slot.id === seen.slot && entry.feature.id === seen.feature),
  );
  if (sheet.observations.length > 0 && own.length === 0) return true;
  return stored && !sameName(sheet.claimed, one.name);
};

const sameName = (claimed: string | null, name: string): boolean =>
  claimed !== null && claimed.trim().replace(/\s+/g, ' ').toLowerCase() === name.toLowerCase();

const beginStep = (screen: Screen): GuidedStep => ({
  number: 0,
  ...(screen.screen === 'sheets'
    ? { what: say`Press ${label('New sheet')}.`, point: { at: 'control', label: label('New sheet') } }
    : {
        what: say`Go to ${label('Sheets')} in the bar, and press ${label('New sheet')} there.`,
        point: { at: 'link', to: { screen: 'sheets' } },
      }),
  why: 'The case begins on an empty sheet. What is on the bench now is another unit, and stays as it is.',
});

const sheetStep = (one: CaseHere, { sheet, entering }: WhereNow): GuidedStep | null => {
  if (sheet.claimedMaker !== one.maker)
    return {
      number: 1,
      what: say`At ${label('Offered as')}, pick the maker: ${typed('Merrowby')}.`,
      why: 'A skipper puts a turbocharger on the counter: “A Merrowby Petrel 13 Cartridge, hardly run.” That is a claim. It will be tested, and is no evidence.',
      point: { at: 'control', label: label('Maker it is offered under') },
    };
  if (!sameName(sheet.claimed, one.name))
    return {
      number: 2,
      what: say`Beside it, write the name as he said it: ${typed(one.name)}, and press Enter.`,
      why: 'With every entry from now on, the right side says whether the unit may be called so.',
      point: { at: 'control', label: label('Offered as') },
    };
  for (const [index, entry] of one.entries.entries()) {
    const step = entryStep(entry, sheet, entering);
    if (step !== null) return { ...step, number: 3 + index };
  }
  if (!sheet.absent.includes(one.absent.id))
    return {
      number: 3 + one.entries.length,
      what: say`In the line of the ${one.absent.name}, go to ${label('absent')} with Tab and tick it with the space bar.`,
      why: 'The plate is gone, and that is an entry too: where nobody looked, nothing is taken for granted.',
      point: { at: 'control', label: label(`absent: {${one.absent.name}} is not with the unit`) },
    };
  return null;
};

const entryStep = (entry: CaseEntry, sheet: Sheet, entering: WhereNow['entering']): Omit<GuidedStep, 'number'> | null => {
  const { slot, feature, give, why } = entry;
  const all = enteredFor(sheet, entry);
  const wrong = all.find((one) => !saysSo(one, entry));
  if (wrong !== undefined)
    return {
      what: say`The entry ${feature.name} says otherwise than this unit shows. Go to it and press Delete, then enter it again.`,
      why: 'Any entry can be taken away or altered, and Undo takes back the last step.',
      point: { at: 'entry', entry: wrong.id },
    };
  if (all.length > 0) return null;
  if (entering?.slot === slot.id && entering.feature === feature.id) return { what: give, why, point: { at: 'value' } };
  return {
    what: say`At ${slot.name}, go to ${label('add a feature')}, write the words ${typed(feature.name)} and press Enter.`,
    why,
    point: { at: 'control', label: label(`Add to {${slot.name}}`) },
  };
};

const endStep = (one: CaseHere, { copied }: WhereNow): GuidedStep =>
  copied
    ? {
        number: stepsOf(one),
        what: say`That was the case. The words are copied and can be put on the ticket; ${label('Save')} would make it a case with a number.`,
        why: 'Whatever you enter next, the name, the reasons and the next check follow it. F1 or ? says what can be done on each screen.',
        point: null,
      }
    : {
        number: stepsOf(one) - 1,
        what: say`Read what became of the claim, on the right. Then press ${label('Copy')} at ${label('For the ticket')}, or F9.`,
        why: `${one.name} is ruled out; one reason stands beside it, the others under Why. The words say what the unit may be called, and what not.`,
        point: { at: 'control', label: label('Copy') },
      };

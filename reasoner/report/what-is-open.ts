import type { NameAnswer, Verdict } from '../answer/verdict.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import { listsNone } from '../plain/lists-none.ts';
import { capital, closing, list } from '../plain/text.ts';
import type { Unit } from '../unit/unit.ts';
import { lacksPhrases } from '../words/lacks-phrase.ts';
import { line, type ReportBlock, type ReportLine } from './report.ts';
import { letterOf, settlingChecks } from './settling-checks.ts';

/** So many open names are spoken of one by one; the others are counted. */
const namesShown = 4;

/** The open names, the slots that keep them open, and what would settle each slot by what the atlas knows. */
export const whatIsOpen = (unit: Unit, verdict: Verdict): ReportBlock[] => {
  const open = namesToSettle(verdict);
  if (open.length === 0) return [paragraph(line('Nothing that would say more than this is open.', [{ kind: 'tally' }]))];
  const shown = open.slice(0, namesShown);
  const more = open.slice(namesShown);
  const checks = settlingChecks(unit, verdict.slots, shown);
  const unsettled = new Set(shown.flatMap((name) => name.unsettled));
  const doubtful = verdict.slots.filter((slot) => slot.doubtful && unsettled.has(slot.slot));
  const unlisted = verdict.slots.filter((slot) => listsNone(slot) && unsettled.has(slot.slot));
  const alike = [...unsettled].filter(
    (slot) => !checks.some((check) => check.slot === slot) && ![...doubtful, ...unlisted].some((each) => each.slot === slot),
  );
  return [
    ...alikeUnsettled(shown).map((names) => paragraph(openLine(unit, shown, names))),
    ...(more.length === 0 ? [] : [paragraph(moreLine(more))]),
    ...(checks.length === 0
      ? []
      : [
          {
            kind: 'list',
            numbered: false,
            lines: checks.map(({ slot, feature, names, sentence }) =>
              line(
                sentence,
                names.map((name) => ({ kind: 'check', name, slot, feature })),
              ),
            ),
          } satisfies ReportBlock,
        ]),
    ...(alike.length === 0
      ? []
      : [
          paragraph(
            line(
              `Of the ${list(alike.map((slot) => slotNameOf(unit.atlas, slot)))} the atlas knows nothing more that would tell what is left apart; only the maker can say.`,
              alike.map((slot) => ({ kind: 'slot', slot })),
            ),
          ),
        ]),
    ...(unlisted.length === 0
      ? []
      : [
          paragraph(
            line(
              `The atlas lists no ${list(
                unlisted.map(({ slot }) => slotNameOf(unit.atlas, slot)),
                'or',
              )} at all, so that no look settles what is there.`,
              unlisted.map(({ slot }) => ({ kind: 'slot', slot })),
            ),
          ),
        ]),
    ...(doubtful.length === 0
      ? []
      : [
          paragraph(
            line(
              `The ${list(doubtful.map(({ slot }) => slotNameOf(unit.atlas, slot)))} cannot be settled by one more look: what was entered there does not go together with the rest and is to be looked at again.`,
              doubtful.map(({ slot }) => ({ kind: 'slot', slot })),
            ),
          ),
        ]),
  ];
};

/** The claimed name first where it is open, then those the verdict says are open above the honest one. */
const namesToSettle = (verdict: Verdict): NameAnswer[] => {
  const of = (id: string): NameAnswer[] => verdict.names.filter(({ name }) => name.id === id);
  const claimed = verdict.claim?.status === 'open' && verdict.claim.name !== null ? of(verdict.claim.name) : [];
  const spoken = new Set(claimed.flatMap(({ name }) => name.models));
  const others = verdict.open
    .flatMap(of)
    .filter(({ name }) => !(name.models.length === 1 && name.models.every((model) => spoken.has(model))));
  return [...claimed, ...others];
};

/** Names kept open by the same slots, spoken of together. */
const alikeUnsettled = (names: readonly NameAnswer[]): NameAnswer[][] => {
  const bySlots = new Map<string, NameAnswer[]>();
  for (const name of names) {
    const key = JSON.stringify([name.unsettled, name.lacks]);
    bySlots.set(key, [...(bySlots.get(key) ?? []), name]);
  }
  return [...bySlots.values()];
};

const openLine = (unit: Unit, shown: readonly NameAnswer[], names: readonly NameAnswer[]): ReportLine => {
  const slots = (names[0]?.unsettled ?? []).map((slot) => slotNameOf(unit.atlas, slot));
  const why = [
    ...(slots.length === 0 ? [] : [`the ${list(slots)} ${slots.length === 1 ? 'is' : 'are'} not settled`]),
    ...lacksPhrases(unit, names[0]?.lacks ?? []),
  ];
  const texts = names.map(({ name }) => [letterOf(shown, name.id), name.text].filter((word) => word !== '').join(' '));
  return line(
    `${capital(list(texts))}${closing(texts.at(-1) ?? '')} ${names.length === 1 ? 'is' : 'are'} open: ${list(why)}.`,
    names.map(({ name }) => ({ kind: 'name', name: name.id })),
  );
};

const moreLine = (more: readonly NameAnswer[]): ReportLine =>
  line(
    `${more.length} more ${more.length === 1 ? 'name is' : 'names are'} open beside these.`,
    more.map(({ name }) => ({ kind: 'name', name: name.id })),
  );

const paragraph = (of: ReportLine): ReportBlock => ({ kind: 'paragraph', line: of });

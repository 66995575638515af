import type { FactDraft, PartDraft } from '../../pack/draft.ts';
import { blank } from '../../pack/facts.ts';

/** What a workshop without a name changes when it makes a part to another maker's pattern: by short feature name. */
export type Changes = Readonly<Record<string, FactDraft>>;

/**
 * A part copied from `original`: every dimension as the original has it but for the changes, and no letters anywhere.
 * `group` is the workshop as the trade calls it, `subject` what tells its copies of one slot apart in their ids.
 */
export const copyOf = (original: PartDraft, group: { id: string; name: string }, subject: string, changes: Changes = {}): PartDraft => {
  const facts: Record<string, FactDraft> = {};
  for (const [feature, fact] of Object.entries(original.facts)) facts[feature] = fact.kind === 'mark' ? blank : fact;
  for (const [short, fact] of Object.entries(changes)) {
    const feature = `${original.slot}-${short}`;
    if (!(feature in original.facts)) throw new Error(`${original.id} has no ${feature} to change`);
    facts[feature] = fact;
  }
  return {
    id: `${group.id}-${subject}-${original.slot}`,
    slot: original.slot,
    name: `${group.name} copy of the ${original.name.replace(/, issue \w$/, '')}`,
    maker: null,
    numbers: [],
    patternOf: original.id,
    source: 'saltmarsh-book',
    facts,
  };
};

/** Finds a part another maker's chapter put on the shelf. */
export const originalIn =
  (parts: readonly PartDraft[]) =>
  (id: string): PartDraft => {
    const found = parts.find((part) => part.id === id);
    if (found === undefined) throw new Error(`no original ${id} to make a pattern of`);
    return found;
  };

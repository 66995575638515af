import { answer, type NameId, type Sheet, type Verdict } from '../../../../reasoner/index.ts';
import { demo } from '../demo-atlas.ts';

export interface Told {
  readonly claim: string | null;
  /** The honest names, in words. */
  readonly honest: readonly string[];
  /** Everything said across the counter, as one reads it out: what is open, the claim with its first two reasons, the unit's own quarrels, the findings, the ticket. */
  readonly says: string;
}

/** What the program says of a unit. @throws when the sheet contradicts itself */
export const asTold = (sheet: Sheet): Told => {
  const verdict = answer(demo, sheet);
  if (verdict.kind !== 'verdict') throw new Error(verdict.contradictions.map(({ sentence }) => sentence).join(' '));
  return { claim: verdict.claim?.status ?? null, honest: inWords(verdict, verdict.honest), says: spoken(verdict) };
};

const inWords = (verdict: Verdict, names: readonly NameId[]): string[] =>
  names.map((id) => verdict.names.find(({ name }) => name.id === id)?.name.text ?? id);

const spoken = (verdict: Verdict): string => {
  const claimed = verdict.names.find(({ name }) => name.id === verdict.claim?.name);
  const reasons = claimed?.conflicts?.found.slice(0, 2).map(({ sentence }) => sentence) ?? [];
  const own = verdict.unit.found.map(({ sentence }) => sentence).filter((sentence) => !reasons.includes(sentence));
  return [
    ...under('still open', few(inWords(verdict, verdict.open))),
    ...under('the claim', verdict.claim?.sentences ?? []),
    ...under('because', reasons),
    ...under('whatever it is called', own.slice(0, 2)),
    ...under(
      'to be said beside it',
      verdict.findings.map(({ sentence }) => sentence),
    ),
    ...under(
      'may be described as',
      verdict.ticket.may.map(({ text }) => text),
    ),
    ...under(
      'must not be described as',
      verdict.ticket.mustNot.map(({ text }) => text),
    ),
  ].join('\n');
};

/** As many as are read out. */
const few = (names: readonly string[]): readonly string[] =>
  names.length > 5 ? [...names.slice(0, 4), `and ${names.length - 4} more`] : names;

const under = (heading: string, sentences: readonly string[]): readonly string[] =>
  sentences.length === 0 ? [] : [`${heading}:`, ...sentences.map((sentence) => `  ${sentence}`)];

import type { Model } from '../atlas/atlas.ts';
import type { NameId } from '../ids.ts';
import { fullName } from '../names/compile-names.ts';
import type { Group, Unit, UnitSlot } from '../unit/unit.ts';
import { makerOfMark } from '../verdict/findings.ts';
import type { ClaimAnswer, ClaimRead, Clause, Finding, NameAnswer, Reason, Verdict } from '../verdict/verdict.ts';
import { caution } from './cautions.ts';
import { list } from './phrases.ts';

/** What the ticket is written from. */
export interface Told {
  readonly unit: Unit;
  readonly honest: readonly NameAnswer[];
  readonly open: readonly NameAnswer[];
  readonly claim: ClaimAnswer | null;
  /** Every name judged. */
  readonly answers: ReadonlyMap<NameId, NameAnswer>;
  readonly findings: readonly Finding[];
}

/** The two texts of a verdict (W1), each clause with what it rests on. */
export const ticketOf = (told: Told): Verdict['ticket'] => ({ may: mayBe(told), mustNot: mustNotBe(told) });

const mayBe = ({ unit, honest, open }: Told): Clause[] => {
  const [best] = honest as [NameAnswer, ...NameAnswer[]];
  const named = best.name.rung !== 'parts';
  const main: Clause = named
    ? {
        text: list(
          honest.map(({ name }) => name.text),
          'or',
        ),
        because: honest.map(({ name }) => ({ kind: 'name', name: name.id })),
      }
    : { text: 'a turbocharger made up of parts, with no name for the whole', because: [{ kind: 'name', name: best.name.id }] };
  const parts =
    named && best.name.rung !== 'pattern core' && best.name.rung !== 'core' ? [] : unit.slots.flatMap((slot) => partClause(unit, slot));
  const still: Clause[] =
    open.length === 0
      ? []
      : [
          {
            text: `not yet settled: ${list(openNames(open), 'or')}`,
            because: open.slice(0, 6).map(({ name }) => ({ kind: 'name', name: name.id })),
          },
        ];
  const limits: Clause[] = named
    ? [
        {
          text: 'by what was seen; the maker’s confirmation of the plate is the last word',
          because: [{ kind: 'caution', index: caution.unknownPattern }],
        },
      ]
    : [];
  return [main, ...parts, ...still, ...limits];
};

const openNames = (open: readonly NameAnswer[]): string[] =>
  open.length > 5
    ? [...open.slice(0, 4).map(({ name }) => name.text), `${open.length - 4} other names`]
    : open.map(({ name }) => name.text);

/** What one seen part is by itself: a maker's name stays with the part it belongs to (N5). */
const partClause = (unit: Unit, slot: UnitSlot): Clause[] => {
  if (slot.observations.length === 0 || slot.doubtful || slot.live.length === 0) return [];
  const parts = slot.live.flatMap((group) => (slot.groups[group] as Group).parts.map((part) => slot.of.parts[part]));
  const makers = new Set(parts.map((part) => part?.maker ?? null));
  if (makers.size !== 1) return [];
  const [maker] = [...makers];
  const because: Reason[] = slot.observations.map(({ id }) => ({ kind: 'observation', observation: id }));
  const name = slot.of.slot.name;
  if (maker === null || maker === undefined) return [{ text: `${name}: a pattern part that bears no maker’s name`, because }];
  const which = parts.length === 1 ? ` (${parts[0]?.name})` : '';
  return [{ text: `${name}: ${unit.atlas.makers.get(maker)?.name}${which}`, because }];
};

const mustNotBe = (told: Told): Clause[] => [
  ...aboutClaim(told),
  ...aboutPlate(told),
  ...aboutMarks(told),
  ...aboutPatterns(told),
  onLooks(told),
];

const onLooks = ({ honest, open }: Told): Clause => ({
  text:
    honest[0]?.name.rung !== 'parts'
      ? 'as genuine, on looks alone'
      : open.some(({ name }) => name.maker !== null)
        ? 'as any maker’s unit, before the open names are settled'
        : 'as any maker’s unit',
  because: [{ kind: 'caution', index: caution.looks }],
});

/** The claim, and where several models bear the claimed name, each of them (A4). */
const aboutClaim = (told: Told): Clause[] =>
  told.claim === null ? [] : [told.claim, ...told.claim.others].flatMap((read) => aboutRead(told, told.claim?.text ?? '', read));

const aboutRead = ({ unit, answers, findings }: Told, text: string, claim: ClaimRead): Clause[] => {
  if (claim.status === 'stands') return [];
  const claimed = claim.name === null ? null : (answers.get(claim.name) ?? null);
  const spoken = claim.reading.model === null ? `“${text}”` : fullName(unit.atlas, unit.atlas.models.get(claim.reading.model) as Model);
  if (claimed === null) {
    const why = claim.sentences[claim.restsOn.length > 0 ? 1 : 0] ?? '';
    return [
      {
        text: `as ${spoken}: ${why.charAt(0).toLowerCase()}${why.slice(1).replace(/\.$/, '')}`,
        because: findings.length > 0 ? [] : [{ kind: 'caution', index: caution.looks }],
      },
    ];
  }
  if (claim.status === 'open') {
    return [{ text: `as ${spoken}, until the open slots are checked`, because: [{ kind: 'name', name: claimed.name.id }] }];
  }
  return [{ text: `as ${spoken}`, because: [{ kind: 'name', name: claimed.name.id }, ...(claimed.conflicts?.found[0]?.members ?? [])] }];
};

/** O5: a plate that disagrees with itself, or with the housing it is on, is no ground to name the unit by. A superseded number is no disagreement. */
const aboutPlate = ({ findings }: Told): Clause[] => {
  const because = findings.flatMap((finding, index): Reason[] =>
    finding.kind === 'plate' && finding.disagreement !== undefined && finding.disagreement.kind !== 'superseded'
      ? [{ kind: 'finding', index }, ...finding.observations.map((observation): Reason => ({ kind: 'observation', observation }))]
      : [],
  );
  return because.length === 0
    ? []
    : [{ text: 'by what its plate says, before the maker has confirmed the plate: it does not agree', because }];
};

/** N5: letters cast on one part reach no further than that part, unless a model or core of that maker stands. */
const aboutMarks = ({ unit, honest }: Told): Clause[] => {
  const carried = new Set(honest.flatMap(({ name }) => (name.maker === null ? [] : [name.maker as string])));
  const clauses = new Map<string, { slots: string[]; because: Reason[] }>();
  for (const slot of unit.slots) {
    for (const observation of slot.observations) {
      const maker = observation.value.kind === 'mark' ? makerOfMark(unit.atlas, slot, observation) : null;
      if (maker === null || carried.has(maker)) continue;
      const known = clauses.get(maker) ?? { slots: [], because: [] };
      known.slots.push(slot.of.slot.name);
      known.because.push({ kind: 'observation', observation: observation.id });
      clauses.set(maker, known);
    }
  }
  return [...clauses].map(([maker, { slots, because }]) => ({
    text: `as a ${unit.atlas.atlas.makers.find(({ id }) => id === maker)?.name} unit: the name is on the ${list([...new Set(slots)])} and says nothing of the rest`,
    because,
  }));
};

/** An unmarked copy is non-genuine; one that bears a maker's name is counterfeit. The words are not exchanged (common practice, no source). */
const aboutPatterns = ({ unit, findings }: Told): Clause[] => {
  const marked = findings.flatMap((finding, index): Clause[] =>
    finding.kind === 'mark' && finding.reading === 'maker’s name on a pattern part'
      ? [
          {
            text: 'as merely non-genuine, before the maker has spoken: it bears a maker’s name on what looks like a pattern part',
            because: [
              { kind: 'finding', index },
              { kind: 'observation', observation: finding.observation },
            ],
          },
        ]
      : [],
  );
  if (marked.length > 0) return marked;
  const unmarked = unit.slots.flatMap((slot): Reason[] => {
    const parts = slot.live.flatMap((group) => (slot.groups[group] as Group).parts);
    if (slot.doubtful || parts.length === 0 || !parts.every((part) => slot.of.parts[part]?.maker === null)) return [];
    return slot.observations.flatMap(({ id, value }): Reason[] =>
      value.kind === 'mark' && value.text === null ? [{ kind: 'observation', observation: id }] : [],
    );
  });
  return unmarked.length === 0
    ? []
    : [{ text: 'as counterfeit: a part without letters pretends to be nobody’s; it is non-genuine', because: unmarked }];
};

import { accusesPlate } from '../answer/plate-reading.ts';
import type { ClaimAnswer, ClaimRead, Clause, Finding, Name, NameAnswer, Reason, Rung, Verdict } from '../answer/verdict.ts';
import type { Model } from '../atlas/atlas.ts';
import { fullName } from '../compile/name-texts.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { MakerId, ModelId, NameId, SlotId } from '../ids.ts';
import { list, withArticle } from '../plain/text.ts';
import { partsIn } from '../unit/groups.ts';
import { makerOfMark } from '../unit/marks.ts';
import { plateOnPattern } from '../unit/plate-on-pattern.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { caution } from './cautions.ts';
import { sharersTold } from './claim-sentences.ts';
import { lacksPhrases } from './lacks-phrase.ts';

/** What the ticket is written from. */
export interface Told {
  readonly unit: Unit;
  readonly honest: readonly NameAnswer[];
  readonly open: readonly NameAnswer[];
  readonly claim: ClaimAnswer | null;
  /** Every name judged. */
  readonly answers: ReadonlyMap<NameId, NameAnswer>;
  readonly findings: readonly Finding[];
  /** A unit on paper (F4): it may be described so once it is built, and its parts are the build's own to tell. */
  readonly planned?: boolean;
}

/** The two texts of a verdict (W1). Every clause is a whole sentence, which says the same when it is copied alone, with what it rests on. */
export const ticketOf = (told: Told): Verdict['ticket'] => ({ may: mayBe(told), mustNot: mustNotBe(told) });

/** What the unit may be called, to stand after "described as" or under that heading, never without its limit (N3). `plate`: whether it has one. */
export const describedAs = (honest: readonly NameAnswer[], plate: boolean): string =>
  namesWhole(honest) ? `${namesOf(honest)}, by what was seen; ${limitOf(honest, plate)}` : namesOf(honest);

const namesWhole = ([best]: readonly NameAnswer[]): boolean => best?.name.rung !== 'parts';

const namesOf = (honest: readonly NameAnswer[]): string =>
  namesWhole(honest)
    ? list(
        honest.map(({ name }) => asSaid(name)),
        'or',
      )
    : 'a turbocharger made up of parts, with no name for the whole';

/** A name as it stands after "described as". */
const asSaid = ({ rung, text }: Name): string => {
  switch (rung) {
    case 'hybrid':
    case 'core':
    case 'pattern core':
    case 'pattern family':
      return withArticle(text);
    case 'all parts':
      return `having ${text}`;
    case 'family parts':
      return `made up of ${text}`;
    case 'family':
      return text.startsWith('core of ') ? withArticle(text) : `one of the ${text}`;
    default:
      return text;
  }
};

/** What cannot be told by eye (N3). Where the name gives no maker there is no maker to ask, and without a plate there is none to be confirmed. */
const limitOf = (honest: readonly NameAnswer[], plate: boolean): string => {
  if (!honest.some(({ name }) => name.maker !== null || name.rung === 'all parts'))
    return 'a pattern part the atlas does not know cannot be excluded by eye';
  return plate
    ? 'the maker’s confirmation of the plate is the last word'
    : 'a pattern part the atlas does not know cannot be excluded by eye, and there is no plate for the maker to confirm';
};

const hasPlate = ({ slots }: Unit): boolean => slots.some(({ of, absent }) => of.data.group === 'plate' && !absent);

/** Rungs whose name says nothing of some part, so that each part that is known is told by itself. */
const leavesParts: ReadonlySet<Rung> = new Set<Rung>(['core', 'pattern core', 'pattern family', 'family parts', 'parts']);

const mayBe = (told: Told): Clause[] => {
  const { unit, honest, open, planned = false } = told;
  const [best] = honest as [NameAnswer, ...NameAnswer[]];
  const still: Clause[] =
    open.length === 0
      ? []
      : [
          {
            text: `Whether this unit may be described as ${list(openNames(open, honest), 'or')} is not yet settled.`,
            because: open.slice(0, 6).map(({ name }) => ({ kind: 'name', name: name.id })),
          },
        ];
  const parts = planned
    ? []
    : leavesParts.has(best.name.rung)
      ? partClauses(unit, told.findings)
      : heldClauses(unit, best.name, told.findings);
  return [mainClause(told), ...parts, ...machinedClauses(told), ...still];
};

const mainClause = ({ unit, honest, planned = false }: Told): Clause => {
  const names: Reason[] = honest.map(({ name }) => ({ kind: 'name', name: name.id }));
  const whole = namesWhole(honest);
  const limit = whole ? `; ${limitOf(honest, hasPlate(unit))}` : '';
  return {
    text: planned
      ? `Once it is built of the parts listed, each of them what it is taken for, this unit may be described as ${namesOf(honest)}${limit}.`
      : `${whole ? 'By what was seen, this' : 'This'} unit may be described as ${namesOf(honest)}${limit}.`,
    because: whole ? [...names, { kind: 'caution', index: caution.unknownPattern }] : names,
  };
};

/** A part keeps its name after work and is called machined (O2, J1). */
const machinedClauses = ({ unit, findings }: Told): Clause[] =>
  machinedIn(unit, findings).map(({ what, because }) => ({ text: `This unit’s ${what}.`, because }));

const aboutWork = ({ unit, findings }: Told): Clause[] =>
  machinedIn(unit, findings).map(({ what, because }) => ({ text: `${mustNot} unmodified: its ${what}.`, because }));

/** What was machined, to stand after "its": the parts of which it is known together, then each two of which one was. */
const machinedIn = (unit: Unit, findings: readonly Finding[]): { readonly what: string; readonly because: readonly Reason[] }[] => {
  const machined = findings.flatMap((finding, index) => (finding.kind === 'machined' ? [{ finding, index }] : []));
  const known = machined.filter(({ finding: { slots } }) => slots.length === 1);
  const names = [...new Set(known.flatMap(({ finding: { slots } }) => slots))].map((slot) => slotName(unit, slot));
  const because = (of: typeof machined): Reason[] =>
    of.flatMap(({ finding, index }): Reason[] => [
      { kind: 'finding', index },
      ...finding.observations.map((observation): Reason => ({ kind: 'observation', observation })),
    ]);
  return [
    ...(known.length === 0 ? [] : [{ what: `${list(names)} ${names.length === 1 ? 'was' : 'were'} machined`, because: because(known) }]),
    ...machined
      .filter(({ finding: { slots } }) => slots.length > 1)
      .map((one) => {
        const either = one.finding.slots.map((slot) => slotName(unit, slot));
        return { what: `${list(either, 'or')} was machined, or both`, because: because([one]) };
      }),
  ];
};

const isMachined = (findings: readonly Finding[], slot: SlotId): boolean =>
  findings.some((finding) => finding.kind === 'machined' && finding.slots.length === 1 && finding.slots[0] === slot);

const openNames = (open: readonly NameAnswer[], honest: readonly NameAnswer[]): string[] => {
  const said = ({ name }: NameAnswer): string =>
    isOfServiceParts(name, honest) ? `${asSaid(name)} with its service parts included` : asSaid(name);
  return open.length > 5 ? [...open.slice(0, 4).map(said), `${open.length - 4} other names`] : open.map(said);
};

/** Where the model stands with its service parts aside, they are all that its own name still waits for: without a word of them one clause would deny the other. */
const isOfServiceParts = ({ rung, models }: Name, honest: readonly NameAnswer[]): boolean =>
  rung === 'model' && honest.some(({ name }) => name.rung === 'model with service parts replaced' && name.models.join() === models.join());

/** Whose a slot's part is, where all that is left of it is of one maker, or of none; with what was seen of it. */
const ownerOf = (
  slot: UnitSlot,
  findings: readonly Finding[],
): { readonly maker: MakerId | null; readonly only: string | null; readonly because: Reason[] } | null => {
  if (slot.observations.length === 0 || slot.doubtful || slot.live.length === 0) return null;
  const parts = partsIn(slot).map((part) => slot.of.parts[part]);
  const makers = new Set(parts.map((part) => part?.maker ?? null));
  const [maker] = [...makers];
  if (makers.size !== 1 || maker === undefined) return null;
  return {
    maker,
    only:
      parts.length === 1 && parts[0] !== undefined ? `${parts[0].name}${isMachined(findings, slot.of.data.id) ? ', machined' : ''}` : null,
    because: slot.observations.map(({ id }) => ({ kind: 'observation', observation: id })),
  };
};

/** What the seen parts are by themselves, those of one maker together: a maker's name stays with the parts it belongs to (N5). */
const partClauses = (unit: Unit, findings: readonly Finding[]): Clause[] => {
  const owners = new Map<MakerId | null, { readonly parts: string[]; readonly because: Reason[] }>();
  for (const slot of unit.slots) {
    const owner = ownerOf(slot, findings);
    if (owner === null) continue;
    const known = owners.get(owner.maker) ?? { parts: [], because: [] };
    known.parts.push(`${slot.of.data.name}${owner.maker === null || owner.only === null ? '' : ` (${owner.only})`}`);
    known.because.push(...owner.because);
    owners.set(owner.maker, known);
  }
  const riveted = plateOnPattern(unit);
  return [...owners].map(([maker, { parts, because }]) => {
    const start = `By what was seen, its ${list(parts)} ${parts.length === 1 ? 'is' : 'are'}`;
    if (maker !== null) {
      const name = makerName(unit, maker);
      return { text: `${start} ${parts.length === 1 ? `${withArticle(name)} part` : `${name} parts`}.`, because };
    }
    const plate =
      riveted === null
        ? ''
        : `; the plate of ${makerNames(unit, riveted.makers)} on ${parts.length === 1 ? 'it' : `its ${slotName(unit, riveted.slot)}`} is no proof`;
    return {
      text: `${start} ${parts.length === 1 ? 'a pattern part' : 'pattern parts'}, made without a maker’s name${plate}.`,
      because,
    };
  });
};

/** Under a name that speaks for the whole: parts known to be nobody's, or another maker's, that the name leaves room for. */
const heldClauses = (unit: Unit, name: Name, findings: readonly Finding[]): Clause[] =>
  unit.slots.flatMap((slot) => {
    const owner = ownerOf(slot, findings);
    const spoken = name.housings.some((housing) => housing.slot === slot.of.data.id);
    if (owner === null || owner.maker === makerOfParts(unit, name) || spoken) return [];
    const what = withArticle(slot.of.data.name);
    const whose = owner.maker === null ? 'made without a maker’s name' : `made by ${makerName(unit, owner.maker)}`;
    return [{ text: `This unit holds ${what} ${whose}.`, because: owner.because }];
  });

/** Whose parts a name speaks of; the maker's name need not reach the unit by that (N5). */
const makerOfParts = ({ atlas }: Unit, { maker, rung, models, family }: Name): MakerId | null => {
  if (rung !== 'all parts' && rung !== 'family parts') return maker;
  const of = family ?? atlas.models.get(models[0] as ModelId)?.family ?? null;
  return of === null ? null : (atlas.families.get(of)?.maker ?? null);
};

const slotName = (unit: Unit, id: SlotId): string => slotNameOf(unit.atlas, id);
const makerName = (unit: Unit, maker: MakerId): string => unit.atlas.makers.get(maker)?.name ?? maker;
const makerNames = (unit: Unit, makers: readonly MakerId[]): string =>
  list(
    makers.map((maker) => makerName(unit, maker)),
    'or',
  );

const mustNotBe = (told: Told): Clause[] => [
  ...aboutClaim(told),
  ...aboutPlate(told),
  ...aboutWhole(told),
  ...aboutMarks(told),
  ...aboutPatterns(told),
  ...aboutWork(told),
  onLooks(told),
];

const mustNot = 'This unit must not be described as';

const onLooks = ({ honest, open }: Told): Clause => ({
  text: namesWhole(honest)
    ? `${mustNot} genuine on looks alone.`
    : open.some(({ name }) => name.maker !== null)
      ? `${mustNot} any maker’s unit before the open names are settled.`
      : `${mustNot} any maker’s unit.`,
  because: [{ kind: 'caution', index: caution.looks }],
});

/** The claim, and where several models bear the claimed name, each of them (A4). */
const aboutClaim = (told: Told): Clause[] => {
  const { claim } = told;
  if (claim === null) return [];
  const unproven = [claim, ...claim.others].filter(({ status }) => status !== 'stands');
  const each = unproven.length > sharersTold ? sharersTold - 1 : unproven.length;
  const rest = unproven.length - each;
  return [
    ...unproven.slice(0, each).flatMap((read) => aboutRead(told, claim.text, read)),
    ...(rest === 0
      ? []
      : [
          {
            text: `${mustNot} any of ${rest} more models that bear the name “${claim.text}”: none of them stands.`,
            because: [{ kind: 'claim' } as const],
          },
        ]),
  ];
};

const aboutRead = ({ unit, answers }: Told, text: string, claim: ClaimRead): Clause[] => {
  const claimed = claim.name === null ? null : (answers.get(claim.name) ?? null);
  if (claimed === null)
    return [
      {
        text: [`${mustNot} “${text}”.`, claim.sentences[claim.restsOn.length > 0 ? 1 : 0] ?? ''].join(' ').trim(),
        because: [{ kind: 'claim' }],
      },
    ];
  const spoken = claim.reading.model === null ? `“${text}”` : fullName(unit.atlas, unit.atlas.models.get(claim.reading.model) as Model);
  const name: Reason = { kind: 'name', name: claimed.name.id };
  if (claim.status === 'open') return [{ text: `${mustNot} ${spoken} ${whileOpen(unit, claimed)}.`, because: [name] }];
  return [{ text: `${mustNot} ${spoken}.`, because: [name, ...(claimed.conflicts?.found[0]?.members ?? [])] }];
};

/** How long an open name must not be said: until what looking can settle is settled; where only the atlas lacks something, until somebody knows. */
const whileOpen = (unit: Unit, { unsettled, lacks }: NameAnswer): string => {
  if (unsettled.length > 4) return 'before its open slots are settled';
  if (unsettled.length > 0)
    return `before its ${list(unsettled.map((id) => slotName(unit, id)))} ${unsettled.length === 1 ? 'is' : 'are'} settled`;
  const plates = unit.slots.filter(({ of, unlisted }) => unlisted !== null && lacks.includes(of.data.id));
  return plates.length === lacks.length && plates.length > 0
    ? `before the maker has confirmed its ${list(plates.map(({ of }) => of.data.name))}`
    : `while ${list(lacksPhrases(unit, lacks))}`;
};

/** O5: a plate that disagrees with itself, or with the housing it is on, is no ground to name the unit by. */
const aboutPlate = ({ unit, findings }: Told): Clause[] => {
  const accusing = findings.flatMap((finding, index) =>
    finding.kind === 'plate' && finding.disagreement !== undefined && accusesPlate(finding.disagreement) ? [{ finding, index }] : [],
  );
  if (accusing.length === 0) return [];
  const holder = accusing.flatMap(({ finding: { disagreement } }) =>
    disagreement?.kind === 'not this bearing housing' ? [disagreement.slot] : [],
  )[0];
  const what =
    holder === undefined ? 'what is stamped on it does not hold together' : `the plate does not agree with the ${slotName(unit, holder)}`;
  return [
    {
      text: `This unit must not be named by its plate before the maker has confirmed it: ${what}.`,
      because: accusing.flatMap(({ finding, index }): Reason[] => [
        { kind: 'finding', index },
        ...finding.observations.map((observation): Reason => ({ kind: 'observation', observation })),
      ]),
    },
  ];
};

/**
 * N5: of a unit whose parts are known to be one maker's its name says nothing all the same, where no plate confirms the whole or the parts
 * are of no one model. That the rest is not known would be untrue of it.
 */
const aboutWhole = ({ unit, honest }: Told): Clause[] => {
  const wholes = honest.filter(({ name }) => name.rung === 'all parts' || name.rung === 'family parts');
  const byMaker = new Map<MakerId, NameAnswer[]>();
  for (const answer of wholes) {
    const maker = makerOfParts(unit, answer.name);
    if (maker !== null) byMaker.set(maker, [...(byMaker.get(maker) ?? []), answer]);
  }
  return [...byMaker].map(([maker, answers]) => {
    const name = makerName(unit, maker);
    const why = answers.some((answer) => answer.name.rung === 'all parts')
      ? `its parts are ${name}’s, and no plate confirms the whole`
      : `its parts are ${name}’s, and of no one model`;
    return {
      text: `${mustNot} ${withArticle(name)} unit: ${why}.`,
      because: answers.map((answer): Reason => ({ kind: 'name', name: answer.name.id })),
    };
  });
};

/** N5: letters cast on one part reach no further than that part, unless a model or core of that maker stands. */
const aboutMarks = ({ unit, honest }: Told): Clause[] => {
  const carried = carriedBy(honest);
  const riveted = plateOnPattern(unit);
  const whole = new Set(honest.map(({ name }) => makerOfParts(unit, name)));
  const clauses = new Map<MakerId, { slots: string[]; because: Reason[] }>();
  for (const slot of unit.slots) {
    for (const observation of slot.observations) {
      const maker = observation.value.kind === 'mark' ? makerOfMark(unit.atlas, slot, observation) : null;
      if (maker === null || carried.has(maker) || whole.has(maker)) continue;
      // Of a plate on a nameless part the clause about that part speaks.
      if (slot.of.data.group === 'plate' && riveted?.makers.includes(maker)) continue;
      const known = clauses.get(maker) ?? { slots: [], because: [] };
      known.slots.push(slot.of.data.name);
      known.because.push({ kind: 'observation', observation: observation.id });
      clauses.set(maker, known);
    }
  }
  return [...clauses].map(([maker, { slots, because }]) => ({
    text: `${mustNot} ${withArticle(makerName(unit, maker))} unit: ${bornOn(unit, [...new Set(slots)])}.`,
    because,
  }));
};

/** Where letters are, part by part while one can take them in, and how far they reach. */
const bornOn = (unit: Unit, slots: readonly string[]): string => {
  const held = unit.slots.filter(({ absent }) => !absent).length;
  if (slots.length >= held) return 'the name is on every part, and no name stands for the whole';
  return `the name is on ${slots.length <= 3 ? `the ${list(slots)}` : `${slots.length} of its ${held} parts`} and says nothing of the rest`;
};

/** Makers whose name reaches the whole unit by its honest name. */
const carriedBy = (honest: readonly NameAnswer[]): ReadonlySet<MakerId> => new Set(honest.flatMap(({ name }) => name.maker ?? []));

/** An unmarked copy is non-genuine; one that bears a maker's name is counterfeit. The words are not exchanged (common practice, no source). */
const aboutPatterns = ({ unit, honest, findings }: Told): Clause[] => {
  const marked = findings.flatMap((finding, index): Clause[] =>
    finding.kind === 'mark' && finding.reading === 'maker’s name on a pattern part'
      ? [
          {
            text: `${mustNot} merely non-genuine before the maker has spoken: its ${slotName(unit, finding.slot)} looks like a pattern part and bears a maker’s name.`,
            because: [
              { kind: 'finding', index },
              { kind: 'observation', observation: finding.observation },
            ],
          },
        ]
      : [],
  );
  // O4: a plate is a maker's name too, and proves nothing of what it is fixed to.
  const riveted = plateOnPattern(unit);
  if (riveted !== null) {
    const maker = makerNames(unit, riveted.makers);
    const carried = carriedBy(honest);
    const whose = riveted.makers.filter((each) => !carried.has(each)).map((each) => `${withArticle(makerName(unit, each))} unit`);
    return [
      ...marked,
      {
        text: `${mustNot} ${list([...whose, 'an unmarked copy', 'genuine'], 'or')}: its ${slotName(unit, riveted.slot)} bears no maker’s name, and the plate of ${maker} on it is no proof.`,
        because: [
          // On paper nothing was seen of a plate, and the name it spoils is the reason.
          ...(riveted.observations.length === 0 ? honest.map(({ name }): Reason => ({ kind: 'name', name: name.id })) : []),
          ...findings.flatMap((finding, index): Reason[] =>
            finding.kind === 'mark' && finding.reading === 'maker’s plate on a pattern part' ? [{ kind: 'finding', index }] : [],
          ),
          ...riveted.observations.map((observation): Reason => ({ kind: 'observation', observation })),
        ],
      },
    ];
  }
  if (marked.length > 0) return marked;
  const bare = unit.slots.flatMap((slot) => {
    const parts = partsIn(slot);
    if (slot.doubtful || parts.length === 0 || !parts.every((part) => slot.of.parts[part]?.maker === null)) return [];
    const because = slot.observations.flatMap(({ id, value }): Reason[] =>
      value.kind === 'mark' && value.text === null ? [{ kind: 'observation', observation: id }] : [],
    );
    return because.length === 0 ? [] : [{ name: slot.of.data.name, because }];
  });
  if (bare.length === 0) return [];
  const names = list(bare.map(({ name }) => name));
  return [
    {
      text: `${mustNot} counterfeit: its ${names} ${bare.length === 1 ? 'bears' : 'bear'} no maker’s name, and a copy that bears none is called non-genuine.`,
      because: bare.flatMap(({ because }) => because),
    },
  ];
};

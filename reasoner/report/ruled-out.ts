import type { ClaimAnswer, Conflict, Finding, NameAnswer, Status, Verdict } from '../answer/verdict.ts';
import type { ObservationId } from '../ids.ts';
import { levelOf } from '../names/rank.ts';
import { list } from '../plain/text.ts';
import { line, type ReportBlock, type ReportLine } from './report.ts';

/** So many reasons against a name are printed, and so many of the unit against itself; the most telling come first (K1), and each suffices. */
export const reasonsShown = 6;
const ownShown = 3;

/** A reason of more members takes a chain of joints to follow: beside the first none is printed. */
const followed = 4;

const toPrint = (conflicts: readonly Conflict[], atMost: number): readonly Conflict[] =>
  conflicts.filter(({ members }, at) => at === 0 || members.length <= followed).slice(0, atMost);

/** How many sentences of a claim stand in the brief: what everything against it rests on, where it rests on one entry, and its status. */
export const inBrief = ({ restsOn }: Pick<ClaimAnswer, 'restsOn'>): number => (restsOn.length > 0 ? 2 : 1);

export interface Reasons {
  readonly shown: readonly Conflict[];
  readonly blocks: readonly ReportBlock[];
}

/** Why the claimed name is ruled out; nothing where it is not. */
export const claimReasons = (verdict: Verdict, claimed: NameAnswer | null): Reasons => {
  const { claim } = verdict;
  if (claim === null || claim.status !== 'ruled out') return { shown: [], blocks: [] };
  const found = claimed?.conflicts?.found ?? [];
  const shown = toPrint(found, reasonsShown);
  const broken = claim.reading.tokens.flatMap(({ promises }, token) =>
    promises.flatMap((promise, index) => (promise.truth === 'fails' ? [{ sentence: promise.sentence, token, index }] : [])),
  );
  const said = new Set(claim.sentences);
  // What stands in the brief already is not said again.
  const rest = claim.sentences.slice(inBrief(claim));
  return {
    shown,
    blocks: [
      ...rest.map((text): ReportBlock => ({ kind: 'paragraph', line: line(text, [{ kind: 'claim' }]) })),
      ...broken
        .filter(({ sentence }) => !said.has(sentence))
        .map(
          ({ sentence, token, index }): ReportBlock => ({
            kind: 'paragraph',
            line: line(sentence, [{ kind: 'claim' }, { kind: 'promise', token, index }]),
          }),
        ),
      ...listOf(shown, found, 'claim', true),
      ...moreOf(
        'claim',
        found.flatMap((conflict, index) => (shown.includes(conflict) ? [] : [index])),
      ),
    ],
  };
};

/**
 * What of the unit does not agree with itself, whatever it is called: its own conflicts, plates, letters, parts no atlas entry fits. What
 * stands among the claim's reasons already is pointed at there, not said twice.
 */
export const disagreements = (verdict: Verdict, said: readonly Conflict[]): Reasons => {
  const own = verdict.unit.found.map((conflict, index) => ({ conflict, index, at: said.findIndex((each) => sameMembers(each, conflict)) }));
  const again = own.filter(({ at }) => at >= 0);
  const fresh = own.filter(({ at }) => at < 0);
  const print = toPrint(
    fresh.map(({ conflict }) => conflict),
    Math.max(0, ownShown - again.length),
  );
  const shown = fresh.filter(({ conflict }) => print.includes(conflict));
  const plates = verdict.findings.flatMap((finding, index) => (finding.kind === 'plate' ? [{ finding, index }] : []));
  const plateOf = (conflict: Conflict) => plates.find(({ finding }) => sameEntries(finding.observations, conflict));
  const lines = shown.map(({ conflict, index }) => {
    const plate = plateOf(conflict);
    return line(plate?.finding.sentence ?? conflict.sentence, [
      { kind: 'conflict', of: 'unit', index },
      ...conflict.members,
      ...(plate === undefined ? [] : [{ kind: 'finding', index: plate.index } as const]),
    ]);
  });
  const spoken = new Set([...again, ...shown].flatMap(({ conflict }) => plateOf(conflict)?.index ?? []));
  const findings = verdict.findings.flatMap((finding, index) => (spoken.has(index) ? [] : findingLines(finding, index)));
  return {
    shown: shown.map(({ conflict }) => conflict),
    blocks: [
      ...(again.length === 0 ? [] : [{ kind: 'paragraph', line: againLine(again) } satisfies ReportBlock]),
      ...(lines.length === 0
        ? []
        : [
            {
              kind: 'paragraph',
              line: line(
                `Whatever it is called, the unit does not agree with itself${again.length === 0 ? '' : ' in this either'}:`,
                shown.map(({ index }) => ({ kind: 'conflict', of: 'unit', index })),
              ),
            } satisfies ReportBlock,
            { kind: 'list', numbered: said.length === 0, lines } satisfies ReportBlock,
          ]),
      ...moreOf(
        'unit',
        // Those that are among the claim's reasons were counted there.
        said.length > 0 ? [] : fresh.flatMap((each) => (shown.includes(each) ? [] : [each.index])),
      ),
      ...(findings.length === 0 ? [] : [{ kind: 'list', numbered: false, lines: findings } satisfies ReportBlock]),
    ],
  };
};

const againLine = (again: readonly { readonly index: number; readonly at: number }[]): ReportLine => {
  const numbers = list(again.map(({ at }) => String(at + 1)));
  return line(
    again.length === 1
      ? `Reason ${numbers} holds whatever it is called: there the unit does not agree with itself.`
      : `Reasons ${numbers} hold whatever it is called: there the unit does not agree with itself.`,
    again.map(({ index }) => ({ kind: 'conflict', of: 'unit', index })),
  );
};

const findingLines = (finding: Finding, index: number): ReportLine[] => {
  const itself = { kind: 'finding', index } as const;
  switch (finding.kind) {
    case 'mark':
      return [line(finding.sentence, [itself, { kind: 'observation', observation: finding.observation }])];
    case 'plate':
      return [
        line(finding.sentence, [itself, ...finding.observations.map((observation) => ({ kind: 'observation', observation }) as const)]),
      ];
    case 'unlisted part':
      return [line(finding.sentence, [itself, { kind: 'slot', slot: finding.slot }])];
    case 'told claim':
    case 'not confirmed':
    case 'remark':
    case 'machined':
      return [];
  }
};

const sameMembers = (a: Conflict, b: Conflict): boolean =>
  a.members.length === b.members.length &&
  a.members.every((one) => b.members.some((other) => JSON.stringify(other) === JSON.stringify(one)));

/** Whether a conflict is about exactly these entries, and nothing but them. */
const sameEntries = (observations: readonly ObservationId[], { members }: Conflict): boolean =>
  members.length === observations.length &&
  members.every((member) => member.kind === 'observation' && observations.includes(member.observation));

const listOf = (conflicts: readonly Conflict[], all: readonly Conflict[], of: 'claim' | 'unit', numbered: boolean): ReportBlock[] =>
  conflicts.length === 0
    ? []
    : [
        {
          kind: 'list',
          numbered,
          lines: conflicts.map((conflict) =>
            line(conflict.sentence, [{ kind: 'conflict', of, index: all.indexOf(conflict) }, ...conflict.members]),
          ),
        },
      ];

/** That more is known than is printed is said, so that nobody takes the list for the whole; how many more is not, since most of it tells of the same entries again (K1). */
const moreOf = (of: 'claim' | 'unit', indexes: readonly number[]): ReportBlock[] => {
  if (indexes.length === 0) return [];
  return [
    {
      kind: 'paragraph',
      line: line(
        'These say it most plainly. Whatever else shows it is kept with the sheet.',
        indexes.map((index) => ({ kind: 'conflict', of, index })),
      ),
    },
  ];
};

/** How many of the atlas's models are left; a model is open or stands when its name is on any of its rungs. */
export const tallyOf = (verdict: Verdict): Readonly<Record<Status, number>> => {
  const best = new Map<string, Status>();
  const order: readonly Status[] = ['stands', 'open', 'ruled out'];
  for (const { name, status } of verdict.names) {
    const [model] = name.models;
    if (levelOf(name.rung) !== 'model' || model === undefined) continue;
    const known = best.get(model);
    if (known === undefined || order.indexOf(status) < order.indexOf(known)) best.set(model, status);
  }
  const count = (status: Status): number => [...best.values()].filter((each) => each === status).length;
  return { stands: count('stands'), open: count('open'), 'ruled out': count('ruled out') };
};

export const tally = (verdict: Verdict): ReportLine => {
  const { stands, open, 'ruled out': out } = tallyOf(verdict);
  const all = stands + open + out;
  const left = [
    ...(open === 0 ? [] : [`${open} ${open === 1 ? 'is' : 'are'} open`]),
    ...(stands === 0 ? [] : [`${stands} stand${stands === 1 ? 's' : ''}`]),
  ];
  const ruled = `what was seen rules out ${out === all ? 'every one' : out === 0 ? 'none' : out} as the name of the whole unit`;
  return line(`Of the ${all} models the atlas lists under a maker’s name, ${[ruled, ...left].join('; ')}.`, [{ kind: 'tally' }]);
};

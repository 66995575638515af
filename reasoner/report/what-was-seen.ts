import type { Answer } from '../answer/verdict.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import { list } from '../plain/text.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { seenPhrase } from '../words/phrases.ts';
import { line, type ReportBlock, type ReportLine } from './report.ts';

/** What came over the counter and under what name; what was only told is here, since it is a claim and no evidence (O1). */
export const broughtIn = (atlas: CompiledAtlas, sheet: Sheet, answer: Answer): ReportLine[] => {
  const story = sheet.story.trim();
  const told = answer.kind === 'verdict' ? answer.findings.map((finding, index) => ({ finding, index })) : [];
  return [
    ...(story === '' ? [] : [line(story, [{ kind: 'sheet', field: 'story' }])]),
    ...absentLine(atlas, sheet),
    ...told.flatMap(({ finding, index }): ReportLine[] => {
      if (finding.kind !== 'told claim' && finding.kind !== 'not confirmed') return [];
      const entries = finding.kind === 'told claim' ? [finding.observation] : finding.observations;
      return [
        line(finding.sentence, [
          { kind: 'finding', index },
          ...entries.map((observation) => ({ kind: 'observation', observation }) as const),
        ]),
      ];
    }),
  ];
};

const absentLine = (atlas: CompiledAtlas, sheet: Sheet): ReportLine[] => {
  if (sheet.absent.length === 0) return [];
  return [
    line(
      `Not with the unit: ${list(sheet.absent.map((slot) => slotNameOf(atlas, slot)))}.`,
      sheet.absent.map((slot) => ({ kind: 'absent', slot })),
    ),
  ];
};

/** Everything seen or measured, slot by slot, each with how sure. */
export const entriesBlock = (atlas: CompiledAtlas, sheet: Sheet): ReportBlock[] => {
  const rows = atlas.slots.flatMap(({ data: slot }) => {
    const lines = sheet.observations
      .filter((observation) => observation.slot === slot.id && observation.sure.kind !== 'told')
      .map((observation) =>
        line(entryText(atlas.features.get(observation.feature) as Feature, observation), [
          { kind: 'observation', observation: observation.id },
        ]),
      );
    return lines.length === 0 ? [] : [{ head: slot.name, lines }];
  });
  return rows.length === 0 ? [] : [{ kind: 'entries', rows }];
};

/** `7 full blades, seen`; `inducer diameter 41.2 mm (±0.04), measured`; `2 full blades, seen, and confirmed when asked`. */
const entryText = (feature: Feature, observation: Observation): string =>
  `${seenPhrase(feature, observation)}, ${observation.sure.kind}${observation.confirmed === true ? ', and confirmed when asked' : ''}`;

/** What ± means, where something measured is shown with one. */
export const measuredLine = (sheet: Sheet): ReportLine[] => {
  const measured = sheet.observations.filter(({ sure }) => sure.kind === 'measured');
  if (measured.length === 0) return [];
  return [
    line(
      '± is twice the standard uncertainty of the measurement; the size is held to lie within it.',
      measured.map(({ id }) => ({ kind: 'observation', observation: id })),
    ),
  ];
};

/** What was looked for and could not be settled: never evidence, and said so that nobody takes it for an omission. */
export const unseenLines = (atlas: CompiledAtlas, sheet: Sheet): ReportLine[] => {
  // What was read once and could not be read again was seen all the same.
  const seen = new Set(sheet.observations.filter(({ sure }) => sure.kind !== 'told').map(({ feature }) => feature));
  const unseen = (sheet.unseen ?? []).map((each, index) => ({ ...each, index })).filter(({ feature }) => !seen.has(feature));
  if (unseen.length === 0) return [];
  const said = unseen.map(
    ({ slot, feature, why }) => `${slotNameOf(atlas, slot)}, ${atlas.features.get(feature)?.name ?? feature} (${why})`,
  );
  return [
    line(
      `Looked for and not settled: ${said.join('; ')}.`,
      unseen.map(({ index }) => ({ kind: 'unseen', index })),
    ),
  ];
};

/** Slots of which nothing was entered: what the verdict does not rest on. */
export const notLookedAt = (atlas: CompiledAtlas, sheet: Sheet, answer: Answer): ReportLine[] => {
  if (answer.kind !== 'verdict') return [];
  const entered = new Set(sheet.observations.filter(({ sure }) => sure.kind !== 'told').map(({ slot }) => slot));
  const left = answer.slots.filter(({ slot, absent }) => !absent && !entered.has(slot));
  if (left.length === 0) return [];
  return [
    line(
      `Nothing was entered of: ${list(left.map(({ slot }) => slotNameOf(atlas, slot)))}.`,
      left.map(({ slot }) => ({ kind: 'slot', slot })),
    ),
  ];
};

/** What tells of work done or of condition: in the atlas's words, and where a part was machined. */
export const remarks = (answer: Answer): ReportLine[] =>
  answer.kind === 'contradiction'
    ? []
    : answer.findings.flatMap((finding, index): ReportLine[] =>
        finding.kind === 'remark'
          ? [
              line(finding.sentence, [
                { kind: 'finding', index },
                { kind: 'observation', observation: finding.observation },
              ]),
            ]
          : finding.kind === 'machined'
            ? [
                line(finding.sentence, [
                  { kind: 'finding', index },
                  ...finding.observations.map((observation) => ({ kind: 'observation', observation }) as const),
                ]),
              ]
            : [],
      );

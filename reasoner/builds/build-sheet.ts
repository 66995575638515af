import type { CompiledAtlas } from '../compile/compiled.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { reach, size } from './build-words.ts';
import type { Plan } from './plan.ts';

/** One heading of the build sheet with its lines; the window prints it as it stands, the command line as text. */
export interface BuildSheetSection {
  readonly heading: string;
  readonly lines: readonly string[];
}

export interface BuildSheet {
  readonly title: string;
  readonly sections: readonly BuildSheetSection[];
}

/** The sheet that goes to the bench with a build: parts, operations with sizes, joints, cautions, and what it may be called. */
export const buildSheetOf = (atlas: CompiledAtlas, sheet: Sheet, plan: Plan): BuildSheet => {
  const slotName = (id: string): string => atlas.data.slots.find((slot) => slot.id === id)?.name ?? id;
  const priceOf = new Map(plan.cost.parts.map(({ part, price }) => [part, price]));
  const parts = plan.slots.flatMap(({ slot, part, text, absent }) => {
    if (part === null) return [`${slotName(slot)}: ${absent ? 'none' : 'not chosen yet'}`];
    const numbers = atlas.parts.get(part)?.numbers.at(-1);
    const price = priceOf.get(part);
    const bought = price === undefined ? ', in stock' : price === null ? ', price not known' : `, ${money(price, plan)}`;
    return [`${slotName(slot)}: ${text}${numbers === undefined ? '' : `, No. ${numbers}`}${plan.cost.rates === null ? '' : bought}`];
  });
  const measured = sheet.observations.flatMap(({ slot, feature, value, sure }) =>
    sure.kind === 'measured' && value.kind === 'measure' && sheet.chosen[slot] !== undefined
      ? [`${slotName(slot)}, ${atlas.features.get(feature)?.name ?? feature}: measured ${size(value.value)} ±${reach(sure.u)}`]
      : [],
  );
  const joints = plan.joints.flatMap(({ sentences, verdict, warm }) => [
    ...(verdict === 'drops in' ? sentences.slice(0, 1) : sentences),
    ...warm.map(({ sentence }) => sentence),
  ]);
  const sections: BuildSheetSection[] = [
    { heading: 'Verdict', lines: [plan.sentence] },
    { heading: 'Parts', lines: parts },
    { heading: 'Measured on the parts in hand', lines: [...measured, ...plan.findings.map(({ sentence }) => sentence)] },
    { heading: 'Operations', lines: plan.works.map(({ sentence }) => sentence) },
    { heading: 'Joints', lines: joints },
    { heading: 'Stacks of lengths', lines: plan.chains.map(({ sentence }) => sentence) },
    { heading: 'Hours and cost', lines: costLines(plan) },
    { heading: 'How it may be described', lines: plan.ticket.may.map(({ text }) => text) },
    { heading: 'How it must not be described', lines: plan.ticket.mustNot.map(({ text }) => text) },
    { heading: 'Before it runs', lines: [...torque, ...plan.cautions] },
  ];
  return { title: sheet.title, sections: sections.filter(({ lines }) => lines.length > 0) };
};

/** Common practice, no source: the atlas holds no torques, and a made-up one would be worse than none. */
const torque = [
  'Tighten by the maker’s figures for these parts; this sheet gives none. The compressor nut is turned by the wheel’s own hand of thread and checked for run-out.',
];

const money = (value: number, plan: Plan): string => `${value.toFixed(2)} ${plan.cost.money ?? ''}`.trim();

const costLines = (plan: Plan): string[] => {
  const { hours, labour, atLeast, parts, unpriced } = plan.cost;
  const work = `${size(hours)} h of machining${labour === null ? '' : `, ${money(labour, plan)}`}`;
  if (atLeast === null) return [`${work}. The atlas has no rates.`];
  const more = unpriced.length === 0 ? '' : ` and ${unpriced.length === 1 ? 'one part' : `${unpriced.length} parts`} without a price`;
  return [work, `${parts.length} parts to buy`, `in all ${unpriced.length === 0 ? '' : 'at least '}${money(atLeast, plan)}${more}`];
};

/** The sheet as plain text, lines no longer than they are. */
export const buildSheetText = ({ title, sections }: BuildSheet): string =>
  [
    title,
    '='.repeat(title.length),
    ...sections.flatMap(({ heading, lines }) => ['', heading, ...lines.map((line) => `  - ${line}`)]),
    '',
  ].join('\n');

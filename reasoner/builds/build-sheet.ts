import type { Part } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { isPlate } from '../compile/is-plate.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { FeatureId, PartId, SlotId } from '../ids.ts';
import { onlyMaker } from '../plain/only-maker.ts';
import { counted } from '../plain/text.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { reach, size } from './build-words.ts';
import { inPence } from './cost.ts';
import type { Plan } from './plan.ts';
import { type Whence, whenceOf } from './whence.ts';

/** One heading of the build sheet with its lines; the window prints it as it stands, the command line as text. */
export interface BuildSheetSection {
  readonly heading: string;
  readonly lines: readonly string[];
}

/** A line of the table of parts: one of each. */
export interface BuildSheetPart {
  readonly slot: SlotId;
  readonly slotName: string;
  readonly part: PartId | null;
  /** The part with what is done to it; where there is none, why not. */
  readonly text: string;
  /** The part number it was sold under last; null where the atlas knows none. */
  readonly number: string | null;
  /** Whence it comes; null where there is none. */
  readonly from: Whence | null;
  /** Of one, in the money of the sheet; null where it is not known or none is bought. */
  readonly price: number | null;
}

/** What goes to the machine with one part: each size to be made with its limits, mm. */
export interface MachiningSheet {
  readonly slot: SlotId;
  readonly part: PartId;
  readonly slotName: string;
  readonly text: string;
  /** What the atlas says of the part as it comes, for its drawing. */
  readonly facts: Part['facts'];
  readonly works: readonly {
    readonly name: string;
    /** The whole sentence, where there is no size to set in the table. */
    readonly sentence: string;
    readonly sizes: readonly {
      readonly feature: FeatureId;
      readonly name: string;
      readonly diameter: boolean;
      readonly nominal: number;
      readonly lower: number;
      readonly upper: number;
    }[];
    readonly cautions: readonly string[];
  }[];
}

/** What the parts to buy come to: the known prices, and how many have none. Money is null, and so are all sums, where there are no rates. */
export interface BuildSheetTotal {
  readonly money: string | null;
  readonly hours: number;
  readonly labour: number | null;
  readonly parts: number | null;
  readonly all: number | null;
  readonly unpriced: number;
}

export interface BuildSheet {
  readonly title: string;
  readonly parts: readonly BuildSheetPart[];
  readonly total: BuildSheetTotal;
  readonly machining: readonly MachiningSheet[];
  readonly sections: readonly BuildSheetSection[];
}

/** The sheet that goes to the bench with a build: parts, operations with sizes, joints, cautions, and what it may be called. */
export const buildSheetOf = (atlas: CompiledAtlas, sheet: Sheet, plan: Plan): BuildSheet => {
  const parts = partsTable(atlas, plan);
  const measured = sheet.observations.flatMap(({ slot, feature, value, sure }) =>
    sure.kind === 'measured' && value.kind === 'measure' && sheet.chosen[slot] !== undefined
      ? [`${slotNameOf(atlas, slot)}, ${atlas.features.get(feature)?.name ?? feature}: measured ${size(value.value)} ±${reach(sure.u)}`]
      : [],
  );
  const joints = plan.joints.flatMap(({ sentences, verdict, warm }) => [
    ...(verdict === 'drops in' ? sentences.slice(0, 1) : sentences),
    ...warm.map(({ sentence }) => sentence),
  ]);
  const sections: BuildSheetSection[] = [
    { heading: 'Verdict', lines: [plan.sentence] },
    { heading: 'Parts', lines: parts.map((part) => partLine(part, plan)) },
    { heading: 'Measured on the parts in hand', lines: [...measured, ...plan.findings.map(({ sentence }) => sentence)] },
    { heading: 'Operations', lines: plan.works.map(({ sentence }) => sentence) },
    { heading: 'Joints', lines: joints },
    { heading: 'Stacks of lengths', lines: plan.chains.map(({ sentence }) => sentence) },
    { heading: 'Hours and cost', lines: costLines(plan) },
    { heading: 'How it may be described', lines: plan.ticket.may.map(({ text }) => text) },
    { heading: 'How it must not be described', lines: plan.ticket.mustNot.map(({ text }) => text) },
    { heading: 'Before it runs', lines: [...torque, ...plan.cautions] },
  ];
  return {
    title: sheet.title,
    parts,
    total: {
      money: plan.cost.money,
      hours: plan.cost.hours,
      labour: plan.cost.labour,
      parts: plan.cost.atLeast === null ? null : inPence(plan.cost.parts.reduce((sum, { price }) => sum + (price ?? 0), 0)),
      all: plan.cost.atLeast,
      unpriced: plan.cost.unpriced.length,
    },
    machining: machiningOf(atlas, plan),
    sections: sections.filter(({ lines }) => lines.length > 0),
  };
};

/** What is said of a slot with no part in it. A nameplate is nothing a shop could add (O5). */
const emptySlot = (atlas: CompiledAtlas, slot: SlotId, absent: boolean): string =>
  isPlate(atlas, slot) ? onlyMaker : absent ? 'none' : 'not chosen yet';

const partsTable = (atlas: CompiledAtlas, plan: Plan): BuildSheetPart[] =>
  plan.slots.map(({ slot, part, text, absent }) => ({
    slot,
    slotName: slotNameOf(atlas, slot),
    part,
    text: text ?? emptySlot(atlas, slot, absent),
    number: part === null ? null : (atlas.parts.get(part)?.numbers.at(-1) ?? null),
    from: part === null ? null : whenceOf(atlas, plan, slot, part),
    price: plan.cost.parts.find((one) => one.part === part)?.price ?? null,
  }));

const partLine = ({ slotName, part, text, number, from, price }: BuildSheetPart, plan: Plan): string => {
  const bought = price === null ? 'price not known' : money(price, plan);
  const paid = from === 'not sold' ? 'not sold by itself' : from === 'stock' ? 'in stock' : bought;
  const said = [text, ...(number === null ? [] : [`No. ${number}`]), ...(part === null || plan.cost.rates === null ? [] : [paid])];
  return `${slotName}: ${said.join(', ')}`;
};

/** A sheet for each part that is worked on, in the order of the slots. */
const machiningOf = (atlas: CompiledAtlas, plan: Plan): MachiningSheet[] =>
  plan.slots.flatMap(({ slot, part, text }) => {
    const works = plan.works.filter((work) => work.slot === slot);
    const held = part === null ? undefined : atlas.parts.get(part);
    if (part === null || held === undefined || works.length === 0) return [];
    return [
      {
        slot,
        part,
        slotName: slotNameOf(atlas, slot),
        text: text ?? held.name,
        facts: held.facts,
        works: works.map(({ operation, sentence, sizes, cautions }) => ({
          name: atlas.data.operations?.find(({ id }) => id === operation)?.name ?? operation,
          sentence,
          sizes: sizes.map(({ feature, nominal, lower, upper }) => {
            const name = atlas.features.get(feature)?.name ?? feature;
            return { feature, name, diameter: /\bdiameter\b/.test(name), nominal, lower, upper };
          }),
          cautions,
        })),
      },
    ];
  });

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
  return [
    work,
    `${counted(parts.length, 'part')} to buy`,
    `in all ${unpriced.length === 0 ? '' : 'at least '}${money(atLeast, plan)}${more}`,
  ];
};

/** The sheet as plain text, lines no longer than they are. */
export const buildSheetText = ({ title, sections }: BuildSheet): string =>
  [
    title,
    '='.repeat(title.length),
    ...sections.flatMap(({ heading, lines }) => ['', heading, ...lines.map((line) => `  - ${line}`)]),
    '',
  ].join('\n');

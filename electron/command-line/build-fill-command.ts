import type { Outcome, Store } from '../../db/index.ts';
import {
  asId,
  type BuildConstraints,
  type CompiledAtlas,
  type Completion,
  completeBuild,
  type FeatureId,
  type MakerId,
  type NameId,
  type PartId,
  planBuild,
  type Seen,
  type Sheet,
  type SlotId,
} from '../../reasoner/index.ts';
import { readyConditions } from '../../reasoner/plain/stock-condition.ts';
import { counted } from '../../reasoner/plain/text.ts';
import { refusal, well } from '../bridge/reply.ts';
import { faultOfConstraints } from '../desk/constraints.ts';
import { shopRates } from '../desk/shop-rates.ts';
import { command } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { atlasOptions, formatOption, sheetOptions, type ValuesOf } from './option.ts';
import { jsonText, sayTrouble, type Terminal } from './terminal.ts';
import { withSheet } from './with-atlas.ts';

const options = {
  ...sheetOptions,
  maker: { kind: 'text', value: '<id>' },
  'at-most': { kind: 'text', value: '<n>' },
  keep: { kind: 'text', value: '<name id>' },
  require: { kind: 'list', value: '<feature>=<value>' },
  stock: { kind: 'list', value: '<part>' },
  'from-shelf': { kind: 'flag' },
  'only-stock': { kind: 'flag' },
  'may-leave': { kind: 'text', value: 'nothing|measuring|unknowns' },
  limit: { kind: 'text', value: '<n>' },
  ...formatOption,
  ...atlasOptions,
} as const;
type Fill = ValuesOf<typeof options>;

/** `kinplate build fill`: every build within the constraints that no other beats. */
export const buildFillCommand = command({
  name: 'build fill',
  options,
  inPlaceOfWords: 'name the sheet with --sheet',
  help: ['Every build that fills the open slots and that no other beats in hours, cost, operations and name.'],
  run: ({ options: asked }, terminal) => withSheet(asked, terminal, (atlas, sheet, store) => fill(atlas, sheet, store, asked, terminal)),
});

const fill = async (atlas: CompiledAtlas, sheet: Sheet, store: Store, asked: Fill, terminal: Terminal): Promise<ExitCode> => {
  const said = constraintsOf(atlas, asked);
  if (!said.ok) return sayTrouble(terminal, said.trouble);
  const rates = await shopRates(store, atlas);
  if (!rates.ok) return sayTrouble(terminal, rates.trouble);
  const shelves = asked['from-shelf'] ? await store.stock.list() : well([]);
  if (!shelves.ok) return sayTrouble(terminal, shelves.trouble);
  const lying = shelves.value.flatMap(({ part, slot, many, condition }) =>
    part !== null && slot !== null && many > 0 && readyConditions.includes(condition) ? [part] : [],
  );
  const constraints: BuildConstraints = {
    ...said.value,
    stock: [...new Set([...(said.value.stock ?? []), ...lying])],
    ...(rates.value === undefined ? {} : { rates: rates.value }),
  };
  const plan = planBuild(atlas, sheet);
  if (plan.kind === 'contradiction') {
    terminal.err(plan.contradictions.map(({ sentence }) => sentence).join('\n'));
    return exitCodes.contradiction;
  }
  const fault = faultOfConstraints(atlas, sheet, constraints);
  if (fault !== null) return sayTrouble(terminal, fault.trouble);
  const limit = wholeNumber(asked.limit ?? '200');
  if (limit === null || limit === 0) return sayTrouble(terminal, notWhole('--limit', asked.limit ?? '').trouble);
  const completion = completeBuild(atlas, sheet, constraints, { limit });
  terminal.out(
    asked.format === 'json'
      ? jsonText(completion)
      : completionText(atlas, sheet, completion, rates.value?.money ?? atlas.data.rates?.[0]?.money ?? ''),
  );
  if (completion.builds.length > 0) return exitCodes.stands;
  return completion.complete ? exitCodes.ruledOut : exitCodes.open;
};

const wholeNumber = (text: string): number | null => (/^\d{1,6}$/.test(text) ? Number(text) : null);
const notWhole = (option: string, found: string) => refusal('malformed', option, `${option} takes a whole number, not “${found}”.`);

const constraintsOf = (atlas: CompiledAtlas, asked: Fill): Outcome<BuildConstraints> => {
  const { 'may-leave': mayLeave, 'only-stock': onlyStock, 'at-most': typed, maker, keep, stock } = asked;
  const atMost = typed === undefined ? undefined : wholeNumber(typed);
  if (atMost === null) return notWhole('--at-most', typed ?? '');
  if (mayLeave !== undefined && mayLeave !== 'nothing' && mayLeave !== 'measuring' && mayLeave !== 'unknowns')
    return refusal('malformed', '--may-leave', `--may-leave is nothing, measuring or unknowns, not “${mayLeave}”.`);
  const required: NonNullable<BuildConstraints['require']>[number][] = [];
  for (const text of asked.require) {
    const at = text.indexOf('=');
    const feature = atlas.features.get(asId<FeatureId>(text.slice(0, at)));
    if (at < 1 || feature === undefined)
      return refusal('not-found', '--require', `--require takes <feature>=<value> with a feature of the atlas, not “${text}”.`);
    const value = valueFrom(feature.kind, text.slice(at + 1));
    if (value === null)
      return refusal('malformed', '--require', `The ${feature.name} is a ${feature.kind}; “${text.slice(at + 1)}” is none.`);
    required.push({ slot: feature.slot, feature: feature.id, value });
  }
  return well({
    require: required,
    onlyStock,
    stock: stock.map((part) => asId<PartId>(part)),
    ...(maker === undefined ? {} : { maker: asId<MakerId>(maker) }),
    ...(keep === undefined ? {} : { keep: asId<NameId>(keep) }),
    ...(atMost === undefined ? {} : { atMost }),
    ...(mayLeave === undefined ? {} : { mayLeave }),
  });
};

const valueFrom = (kind: Seen['kind'], text: string): Seen | null => {
  switch (kind) {
    case 'count': {
      const count = wholeNumber(text);
      return count === null ? null : { kind, from: count, to: count };
    }
    case 'measure':
      return /^-?\d+(\.\d+)?$/.test(text) ? { kind, value: Number(text) } : null;
    case 'choice':
      return text === '' ? null : { kind, option: text };
    case 'presence':
      return text === 'yes' || text === 'no' ? { kind, present: text === 'yes' } : null;
    case 'mark':
      return { kind, text: text === '' ? null : text };
  }
};

const completionText = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  { builds, complete: all, stopped, empty }: Completion,
  money: string,
): string => {
  const slotName = (id: string): string => atlas.data.slots.find((slot) => slot.id === id)?.name ?? id;
  const lines = builds.flatMap((build, i) => {
    const cost = build.cost === null ? '' : `, ${build.unpriced.length === 0 ? '' : 'at least '}${build.cost.toFixed(2)} ${money}`;
    const open = build.open === 0 ? '' : `, ${counted(build.open, 'joint or stack', 'joints or stacks')} left open`;
    const added = (Object.entries(build.chosen) as [SlotId, PartId][]).filter(([slot]) => sheet.chosen[slot] === undefined);
    return [
      `${i + 1}. ${build.names.map(({ text }) => text).join(' or ')}`,
      `     ${build.hours} h, ${counted(build.operations, 'operation')}${cost}${open}`,
      ...added.map(([slot, part]) => {
        const alike = build.alike.find((each) => each.slot === slot)?.parts.length ?? 0;
        return `     ${slotName(slot)}: ${part}${alike === 0 ? '' : ` (or one of ${alike} alike)`}`;
      }),
      ...build.works.map(({ operation, part }) => `     work: ${operation} on ${part}`),
    ];
  });
  const end =
    builds.length === 0
      ? `No build keeps to all that${empty.length === 0 ? '' : `: nothing may sit in ${empty.map(slotName).join(', ')}`}.`
      : all
        ? 'These are all that no other beats.'
        : `There may be more: ${stopped}.`;
  const caution = builds.length === 0 ? [] : ['Every build has its own cautions; plan the one you mean to make with build plan.'];
  return `${[...lines, end, ...caution].join('\n')}\n`;
};

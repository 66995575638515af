import type { Outcome } from '../../db/index.ts';
import {
  asId,
  type BuildConstraints,
  type CompiledAtlas,
  type Completion,
  compareModels,
  completeBuild,
  type FeatureId,
  type MakerId,
  type ModelId,
  type NameId,
  type PartId,
  planBuild,
  type Seen,
  type Sheet,
  type SlotId,
} from '../../reasoner/index.ts';
import { trouble, well } from '../bridge/reply.ts';
import { faultOfConstraints } from '../desk/constraints.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import type { AtlasChoice } from './open-atlas.ts';
import { sayTrouble, type Terminal } from './terminal.ts';
import { type SheetChoice, withAtlas, withSheet } from './with-atlas.ts';

export interface CompleteCommand extends AtlasChoice {
  readonly sheet: SheetChoice;
  readonly format: 'text' | 'json';
  /** Constraints as they were typed. */
  readonly asked: {
    readonly maker: string | undefined;
    readonly atMost: string | undefined;
    readonly keep: string | undefined;
    readonly require: readonly string[];
    readonly stock: readonly string[];
    readonly onlyStock: boolean;
    readonly mayLeave: string | undefined;
    readonly limit: string | undefined;
  };
}

/** `kinplate build fill`: every build within the constraints that no other beats. */
export const completeCommand = (command: CompleteCommand, terminal: Terminal): Promise<ExitCode> =>
  withSheet(command, terminal, (atlas, sheet) => complete(atlas, sheet, command, terminal));

const complete = (atlas: CompiledAtlas, sheet: Sheet, { asked, format }: CompleteCommand, terminal: Terminal): ExitCode => {
  const constraints = constraintsOf(atlas, asked);
  if (!constraints.ok) return sayTrouble(terminal, constraints.trouble);
  const plan = planBuild(atlas, sheet);
  if (plan.kind === 'contradiction') {
    terminal.err(plan.contradictions.map(({ sentence }) => sentence).join('\n'));
    return exitCodes.contradiction;
  }
  const fault = faultOfConstraints(atlas, sheet, constraints.value);
  if (fault !== null) return sayTrouble(terminal, fault.trouble);
  const limit = wholeNumber(asked.limit ?? '200');
  if (limit === null || limit === 0) return sayTrouble(terminal, notWhole('--limit', asked.limit ?? '').trouble);
  const completion = completeBuild(atlas, sheet, constraints.value, { limit });
  terminal.out(format === 'json' ? `${JSON.stringify(completion, null, 2)}\n` : completionText(atlas, sheet, completion));
  if (completion.builds.length > 0) return exitCodes.stands;
  return completion.complete ? exitCodes.ruledOut : exitCodes.open;
};

const wholeNumber = (text: string): number | null => (/^\d{1,6}$/.test(text) ? Number(text) : null);
const notWhole = (option: string, found: string) => trouble('malformed', option, `${option} takes a whole number, not “${found}”.`);

const constraintsOf = (atlas: CompiledAtlas, asked: CompleteCommand['asked']): Outcome<BuildConstraints> => {
  const { mayLeave, maker, keep, stock, onlyStock } = asked;
  const atMost = asked.atMost === undefined ? undefined : wholeNumber(asked.atMost);
  if (atMost === null) return notWhole('--at-most', asked.atMost ?? '');
  if (mayLeave !== undefined && mayLeave !== 'nothing' && mayLeave !== 'measuring' && mayLeave !== 'unknowns')
    return trouble('malformed', '--may-leave', `--may-leave is nothing, measuring or unknowns, not “${mayLeave}”.`);
  const required: NonNullable<BuildConstraints['require']>[number][] = [];
  for (const text of asked.require) {
    const at = text.indexOf('=');
    const feature = atlas.features.get(asId<FeatureId>(text.slice(0, at)));
    if (at < 1 || feature === undefined)
      return trouble('not-found', '--require', `--require takes <feature>=<value> with a feature of the atlas, not “${text}”.`);
    const value = valueFrom(feature.kind, text.slice(at + 1));
    if (value === null)
      return trouble('malformed', '--require', `The ${feature.name} is a ${feature.kind}; “${text.slice(at + 1)}” is none.`);
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

const completionText = (atlas: CompiledAtlas, sheet: Sheet, { builds, complete: all, stopped, empty }: Completion): string => {
  const slotName = (id: string): string => atlas.atlas.slots.find((slot) => slot.id === id)?.name ?? id;
  const money = atlas.atlas.rates?.[0]?.money ?? '';
  const lines = builds.flatMap((build, i) => {
    const cost = build.cost === null ? '' : `, ${build.unpriced.length === 0 ? '' : 'at least '}${build.cost.toFixed(2)} ${money}`;
    const open = build.open === 0 ? '' : `, ${build.open} joints or stacks left open`;
    const added = (Object.entries(build.chosen) as [SlotId, PartId][]).filter(([slot]) => sheet.chosen[slot] === undefined);
    return [
      `${i + 1}. ${build.names.map(({ text }) => text).join(' or ')}`,
      `     ${build.hours} h, ${build.operations} operations${cost}${open}`,
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

/** `kinplate compare`: two models side by side, differences first, tab-separated. */
export const compareCommand = (
  command: AtlasChoice & { readonly a: string; readonly b: string; readonly format: 'text' | 'json' },
  terminal: Terminal,
): Promise<ExitCode> =>
  withAtlas(command, terminal, (atlas) => {
    const missing = [command.a, command.b].find((id) => !atlas.models.has(asId<ModelId>(id)));
    if (missing !== undefined) return sayTrouble(terminal, trouble('not-found', missing, `The atlas has no model “${missing}”.`).trouble);
    const compared = compareModels(atlas, asId<ModelId>(command.a), asId<ModelId>(command.b));
    const rows = compared.rows.map(({ same, what, a, b }) => [same ? '=' : '≠', what, a ?? '', b ?? ''].join('\t'));
    terminal.out(
      command.format === 'json'
        ? `${JSON.stringify(compared, null, 2)}\n`
        : `${[['', '', compared.a, compared.b].join('\t'), ...rows].join('\n')}\n`,
    );
    return exitCodes.stands;
  });

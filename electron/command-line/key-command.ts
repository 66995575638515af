import { type CompiledAtlas, type FamilyId, type Key, type KeyAsked, type SlotId, type StageId, stagesFor } from '../../reasoner/index.ts';
import { list } from '../../reasoner/plain/text.ts';
import { refusal } from '../bridge/reply.ts';
import { keyAnswer } from '../desk/keys.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { atlasOptions, formatOption, type ValuesOf } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';
import { withAtlas } from './with-atlas.ts';

const options = {
  level: { kind: 'among', words: ['models', 'families'] },
  // Families and makers by id or name; none: all.
  family: { kind: 'list', value: '<family>' },
  maker: { kind: 'text', value: '<maker>' },
  'no-letters': { kind: 'flag' },
  plate: { kind: 'flag' },
  // A strip-down stage by id or name: nothing that needs more is asked for.
  'as-far-as': { kind: 'text', value: '<stage>' },
  ...formatOption,
  ...atlasOptions,
} as const;
type KeyChoice = ValuesOf<typeof options>;

/** `kinplate key`: a numbered identification key. */
export const keyCommand = command({
  name: 'key',
  options,
  inPlaceOfWords: 'name families with --family, or a maker with --maker',
  help: ['A numbered key that leads to a model or family by what is seen, in as few minutes as it can.'],
  run: ({ options: choice }, terminal) =>
    withAtlas(choice, terminal, (atlas) => {
      const asked = askedOf(atlas, choice);
      if (!asked.ok) return sayTrouble(terminal, asked.trouble);
      const key = keyAnswer(atlas, asked.value);
      if (!key.ok) return sayTrouble(terminal, key.trouble);
      terminal.out(choice.format === 'json' ? jsonText(key.value) : keyText(atlas, key.value));
      return exitCodes.stands;
    }),
});

const askedOf = (atlas: CompiledAtlas, choice: KeyChoice) => {
  const named = <T extends { readonly id: string; readonly name: string }>(list: readonly T[], text: string): T | undefined =>
    list.find(({ id }) => id === text) ?? list.find(({ name }) => name.toLowerCase() === text.toLowerCase());
  const families: FamilyId[] = [];
  for (const text of choice.family) {
    const family = named(atlas.data.families, text);
    if (family === undefined) return refusal('not-found', '--family', `The atlas has no family “${text}”.`);
    families.push(family.id);
  }
  if (choice.maker !== undefined) {
    const maker = named(atlas.data.makers, choice.maker);
    if (maker === undefined) return refusal('not-found', '--maker', `The atlas has no maker “${choice.maker}”.`);
    families.push(...atlas.data.families.filter((family) => family.maker === maker.id).map(({ id }) => id));
  }
  const asFarAs = choice['as-far-as'];
  const stage = asFarAs === undefined ? null : named(atlas.data.stages, asFarAs);
  if (stage === undefined) return refusal('not-found', '--as-far-as', `The atlas has no strip-down stage “${asFarAs}”.`);
  const stages: StageId[] | null =
    stage === null ? null : atlas.data.stages.map(({ id }) => id).filter((id) => stagesFor(atlas, [stage.id]).has(id));
  const asked: KeyAsked = {
    level: choice.level,
    scope: { letters: !choice['no-letters'], plate: choice.plate, ...(stages === null ? {} : { stages }) },
    ...(families.length === 0 ? {} : { families }),
  };
  return { ok: true, value: asked } as const;
};

/** One place after another, its answers below it, where each leads at the right. */
const keyText = (atlas: CompiledAtlas, key: Key): string => {
  const name = (label: number) => key.labels[label]?.name ?? String(label);
  const stageName = (id: StageId) => atlas.stages.get(id)?.name ?? id;
  const slotName = (id: SlotId) => atlas.data.slots.find((one) => one.id === id)?.name ?? id;
  const own = (slots: readonly SlotId[]) =>
    slots.length === 0 ? '' : ` (if the ${list(slots.map(slotName))} ${slots.length === 1 ? 'is' : 'are'} its own)`;
  const lines = key.places.flatMap(({ number, feature: id, goOn, minutes, ways }) => {
    const feature = atlas.features.get(id);
    const slot = atlas.data.slots.find((one) => one.id === feature?.slot)?.name ?? '';
    const first = goOn.length === 0 ? '' : ` (first: ${goOn.map(stageName).join(', ')})`;
    return [
      '',
      `${number}. ${slot}: ${feature?.name ?? id}, ${minutes} min${first}`,
      ...ways.map(
        ({ answer, leads }) =>
          `     ${answer}: ${leads.kind === 'place' ? `go to ${leads.number}` : `${leads.labels.map(name).join(' or ')}${own(leads.ifOwn)}`}`,
      ),
    ];
  });
  const none =
    key.places.length === 0 ? ['', `No check in this scope tells them apart: ${key.labels.map((one) => one.name).join(' or ')}.`] : [];
  return `${[`Key (atlas ${key.edition})`, ...key.cautions, '', ...key.words, ...none, ...lines].join('\n')}\n`;
};

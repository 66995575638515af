import type { ClaimAnswer, IfKept, Status } from '../answer/verdict.ts';
import type { Feature, Model } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { fullName } from '../compile/name-texts.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { FitVerdict } from '../fits/fit.ts';
import { list } from '../plain/text.ts';
import type { Observation } from '../sheet/sheet.ts';
import { hasPhrase } from './has-phrase.ts';

/** What one of two entries that disagree would mean were it the true one (O6): `With 10 blades: Merrowby Petrel 13 Cartridge is open, …`. */
export const ifKeptSentence = (
  atlas: CompiledAtlas,
  kept: Observation,
  moreAside: boolean,
  { honest, claim, left, fit }: Pick<IfKept, 'honest' | 'left' | 'fit'> & { readonly claim: ClaimAnswer | null },
): string => {
  const seen = hasPhrase(atlas.features.get(kept.feature) as Feature, kept);
  const slot = slotNameOf(atlas, kept.slot);
  const means = [
    ...(fit === null ? [] : [`what is chosen ${fits[fit]}`]),
    ...(claim === null ? [] : [`${spoken(atlas, claim)} ${statuses[claim.status]}`]),
    honest.every(({ rung }) => rung === 'parts')
      ? 'no name stands for the whole'
      : `the honest name is ${list(
          honest.map(({ text }) => text),
          'or',
        )}`,
    ...(left === null ? [] : [`${count(left)} left for the ${slot}`]),
  ];
  return `With ${seen}${moreAside ? ', and every other entry that disagrees set aside' : ''}: ${means.join('; ')}.`;
};

const spoken = (atlas: CompiledAtlas, { text, reading, others }: ClaimAnswer): string =>
  reading.model === null || others.length > 0 ? `“${text}”` : fullName(atlas, atlas.models.get(reading.model) as Model);

const count = (left: number): string => (left === 0 ? 'no listed part is' : left === 1 ? 'one listed part is' : `${left} listed parts are`);

const statuses: Readonly<Record<Status, string>> = { stands: 'stands', open: 'is open', 'ruled out': 'is ruled out' };

const fits: Readonly<Record<FitVerdict, string>> = {
  'drops in': 'drops in',
  'after work': 'goes together after work',
  'will not fit': 'will not fit',
  'not known': 'is not known to go together',
};

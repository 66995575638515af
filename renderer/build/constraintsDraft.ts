import type { BuildConstraints, Feature, FeatureId, MakerId, NameId, PartId, Seen, SlotId } from '../../reasoner/index.ts';
import { type LengthUnit, type Read, readCount, readMeasure } from '../values/readSeen.ts';

/** The form as it stands, before it is read. Texts stay as typed. */
export interface ConstraintsDraft {
  readonly maker: MakerId | '';
  readonly atMost: string;
  readonly keep: NameId | '';
  readonly mayLeave: NonNullable<BuildConstraints['mayLeave']>;
  readonly require: readonly RequireDraft[];
  readonly onlyStock: boolean;
}

export interface RequireDraft {
  readonly slot: SlotId;
  readonly feature: FeatureId;
  readonly text: string;
}

export const noConstraints: ConstraintsDraft = { maker: '', atMost: '', keep: '', mayLeave: 'nothing', require: [], onlyStock: false };

/** What is asked of one feature, read from its text; a choice's text is its option, a presence `yes` or `no`. */
export function readRequired(feature: Feature, text: string, unit: LengthUnit): Read<Seen> {
  switch (feature.kind) {
    case 'count': {
      const count = readCount(text);
      return count.ok ? { ok: true, value: { kind: 'count', ...count.value } } : count;
    }
    case 'measure': {
      const measure = readMeasure(text, feature.unit === 'deg' ? 'deg' : 'mm', unit);
      return measure.ok ? { ok: true, value: { kind: 'measure', value: measure.value } } : measure;
    }
    case 'choice':
      return text === '' ? { ok: false, sentence: 'One of the choices is wanted.' } : { ok: true, value: { kind: 'choice', option: text } };
    case 'presence':
      return text === 'yes' || text === 'no'
        ? { ok: true, value: { kind: 'presence', present: text === 'yes' } }
        : { ok: false, sentence: 'There, or not there?' };
    case 'mark':
      return { ok: true, value: { kind: 'mark', text: text.trim() === '' ? null : text.trim() } };
  }
}

export const readAtMost = (text: string): Read<number | null> => {
  const typed = text.trim();
  if (typed === '') return { ok: true, value: null };
  return /^\d{1,3}$/.test(typed)
    ? { ok: true, value: Number(typed) }
    : { ok: false, sentence: `“${typed}” is no number of operations. Write 0, 1, 2 …, or nothing for as many as it takes.` };
};

/** The constraints to ask with, or the first sentence about what cannot be read. */
export function readConstraints(
  draft: ConstraintsDraft,
  stock: readonly PartId[],
  { feature: featureOf, unit }: { feature(id: FeatureId): Feature | undefined; readonly unit: LengthUnit },
): Read<BuildConstraints> {
  const atMost = readAtMost(draft.atMost);
  if (!atMost.ok) return atMost;
  const require: { slot: SlotId; feature: FeatureId; value: Seen }[] = [];
  for (const { slot, feature: id, text } of draft.require) {
    const feature = featureOf(id);
    if (feature === undefined) continue;
    const value = readRequired(feature, text, unit);
    if (!value.ok) return { ok: false, sentence: `${feature.name}: ${value.sentence}` };
    require.push({ slot, feature: id, value: value.value });
  }
  return {
    ok: true,
    value: {
      ...(draft.maker === '' ? {} : { maker: draft.maker }),
      ...(atMost.value === null ? {} : { atMost: atMost.value }),
      ...(draft.keep === '' ? {} : { keep: draft.keep }),
      mayLeave: draft.mayLeave,
      ...(require.length === 0 ? {} : { require }),
      ...(stock.length === 0 ? {} : { stock }),
      ...(draft.onlyStock ? { onlyStock: true } : {}),
    },
  };
}

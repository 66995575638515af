import { useState } from 'react';
import { fieldsMerged, type Side } from '../../reasoner/plain/fields-merged.ts';
import { BothDialog } from './BothDialog.tsx';

interface Props<Fields extends object> {
  readonly title: string;
  /** Who changed what when, as a sentence. */
  readonly told: string;
  /** What both were made of, what is here, and what is there. */
  readonly base: Fields;
  readonly mine: Fields;
  readonly theirs: Fields;
  /** What each field is called. */
  readonly names: Readonly<Record<keyof Fields, string>>;
  /** How a field reads; empty for nothing. */
  say<Field extends keyof Fields>(field: Field, value: Fields[Field]): string;
  onSave(fields: Fields): void;
  onTake(): void;
  onLater(): void;
}

/** Something of a few fields was written elsewhere since it was read here: both are shown field by field, and what both wrote is chosen. */
export function FieldsDialog<Fields extends object>(props: Props<Fields>) {
  const { base, mine, theirs, names } = props;
  const [decided, setDecided] = useState<ReadonlyMap<string, Side>>(new Map());
  const { merged, differences } = fieldsMerged(base, mine, theirs, (field) => decided.get(String(field)));
  const text = <Field extends keyof Fields>(field: Field, fields: Fields): string | null => props.say(field, fields[field]) || null;
  const left = differences.filter(({ field, changed }) => changed === 'both' && !decided.has(String(field))).length;
  return (
    <BothDialog
      title={props.title}
      told={props.told}
      rows={differences.map(({ field, changed }) => ({
        key: String(field),
        what: names[field],
        mine: text(field, mine),
        theirs: text(field, theirs),
        changed,
      }))}
      heads={['Here', 'There']}
      decided={decided}
      onDecide={(key, side) => setDecided(new Map(decided).set(key, side))}
      hint={left === 0 ? 'What is marked is kept.' : 'What was written on both sides waits to be chosen.'}
      both="Save as marked"
      waits={left > 0}
      onBoth={() => props.onSave(merged)}
      onMine={() => props.onSave(mine)}
      onTake={props.onTake}
      onLater={props.onLater}
    />
  );
}

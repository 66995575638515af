interface Props {
  readonly name: string;
  readonly label?: string;
  readonly labelledBy?: string;
  readonly options: readonly { readonly value: string; readonly text: string }[];
  readonly picked: string | null;
  onPick(value: string): void;
}

/** One of a few, all in sight: arrows choose, Enter takes the entry. */
export function Picks({ name, label, labelledBy, options, picked, onPick }: Props) {
  return (
    <div className="picks" role="radiogroup" aria-label={label} aria-labelledby={labelledBy}>
      {options.map((option) => (
        <label key={option.value}>
          <input type="radio" name={name} value={option.value} checked={picked === option.value} onChange={() => onPick(option.value)} />
          <span>{option.text}</span>
        </label>
      ))}
    </div>
  );
}

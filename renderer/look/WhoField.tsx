import { useWhoList } from './HeldShop.tsx';

interface Props {
  readonly label: string;
  readonly who: string;
  readonly className?: string;
  onSay(who: string): void;
}

/** Who is at this computer, among those who work here. */
export function WhoField({ label, who, className, onSay }: Props) {
  const whoList = useWhoList();
  return (
    <label className={className === undefined ? 'who-looks' : `who-looks ${className}`}>
      {label}
      <input
        className="field"
        maxLength={200}
        autoComplete="off"
        placeholder="your name"
        list={whoList}
        value={who}
        onChange={(event) => onSay(event.target.value)}
      />
    </label>
  );
}

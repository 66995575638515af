import type { ReactNode } from 'react';
import { BothSides, type SidesProps } from './BothSides.tsx';
import { ModalBox } from './ModalBox.tsx';

interface Props extends SidesProps {
  readonly title: string;
  /** Who changed what when. */
  readonly told: ReactNode;
  /** What saving both keeps, or what waits to be chosen. */
  readonly hint: string;
  /** What saving both is called; not to be done while something waits to be chosen. */
  readonly both: string;
  readonly waits: boolean;
  onBoth(): void;
  onMine(): void;
  onTake(): void;
  onLater(): void;
}

/** Something was changed elsewhere since it was read here: what differs stands side by side, and what shall be is decided. */
export function BothDialog({ title, told, hint, both, waits, onBoth, onMine, onTake, onLater, ...sides }: Props) {
  return (
    <ModalBox title={title} className="both-dialog" onLeave={onLater}>
      <p>{told}</p>
      <BothSides {...sides} />
      <p className="small soft" role="status">
        {hint}
      </p>
      <div className="actions">
        <button type="button" className="button main" disabled={waits} onClick={onBoth}>
          {both}
        </button>
        <button type="button" className="button" onClick={onMine}>
          Keep mine over it
        </button>
        <button type="button" className="button" onClick={onTake}>
          Take what is there
        </button>
        <button type="button" className="button" onClick={onLater}>
          Decide later
        </button>
      </div>
    </ModalBox>
  );
}

import type { NumberPiece } from '../atlas/number-pattern.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { SlotId } from '../ids.ts';
import { months } from '../plain/months.ts';

/** What a piece of a number is called. */
export const nameOf = (piece: NumberPiece): string => {
  switch (piece.kind) {
    case 'fixed':
      return 'always so';
    case 'slot':
      return 'of which part';
    case 'digits':
    case 'letters':
      return piece.name;
    case 'year':
    case 'year letter':
      return 'year';
    case 'month':
    case 'month letter':
      return 'month';
    case 'check digit':
      return 'check digit';
  }
};

/** So many are named, and then how many more there are. */
const most = 4;

/** What can stand there; `given` signs of it are there already. `5 figures`, `3 more figures`, `“FLAG”, “HULL” …`. */
export const wantedOf = (piece: NumberPiece, given = 0): string => {
  const left = (count: number, what: string): string =>
    `${count - given}${given > 0 ? ' more' : ''} ${what}${count - given === 1 ? '' : 's'}`;
  switch (piece.kind) {
    case 'fixed':
      return `“${piece.text}”`;
    case 'slot': {
      const codes = Object.keys(piece.codes).map((code) => `“${code}”`);
      return codes.length > most ? `${codes.slice(0, most).join(', ')} or ${codes.length - most} more` : codes.join(' or ');
    }
    case 'digits':
      return left(piece.count, 'figure');
    case 'letters':
      return `${left(piece.count, 'letter')} of ${piece.among}`;
    case 'year':
      return left(piece.figures, 'figure');
    case 'year letter':
    case 'month letter':
      return `a letter of ${piece.letters}`;
    case 'month':
      return '01 to 12';
    case 'check digit':
      return 'a figure that follows from those before';
  }
};

interface Says {
  readonly slot?: SlotId;
  readonly year?: number;
  readonly month?: number;
}

/** What a piece says, where it says more than that it is there. */
export const meansOf = (atlas: CompiledAtlas, piece: NumberPiece, { slot, year, month }: Says): string | null => {
  switch (piece.kind) {
    case 'slot':
      return slot === undefined ? null : slotNameOf(atlas, slot);
    case 'year':
    case 'year letter':
      return year === undefined ? null : String(year);
    case 'month':
    case 'month letter':
      return month === undefined ? null : (months[month - 1] ?? null);
    default:
      return null;
  }
};

import type { SlotMark } from '../../reasoner/index.ts';

const look: Record<SlotMark, { readonly tone: string; readonly glyph: string }> = {
  'drops in': { tone: 'is-stands', glyph: '✓' },
  'after work': { tone: 'is-open', glyph: '◐' },
  'measure and choose': { tone: 'is-open', glyph: '◐' },
  'not known': { tone: 'is-open', glyph: '?' },
  'will not fit': { tone: 'is-out', glyph: '✗' },
};

export function FitMark({ verdict }: { readonly verdict: SlotMark }) {
  return (
    <span className={`status small ${look[verdict].tone}`}>
      <span aria-hidden="true">{look[verdict].glyph}</span>
      {verdict}
    </span>
  );
}

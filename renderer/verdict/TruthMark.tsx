import type { Truth } from '../../reasoner/index.ts';

const look: Record<Truth, { readonly tone: string; readonly glyph: string }> = {
  holds: { tone: 'is-stands', glyph: '✓' },
  fails: { tone: 'is-out', glyph: '✗' },
  'not known': { tone: 'is-open', glyph: '?' },
};

export function TruthMark({ truth }: { readonly truth: Truth }) {
  return (
    <span className={`status small ${look[truth].tone}`}>
      <span aria-hidden="true">{look[truth].glyph}</span>
      {truth}
    </span>
  );
}

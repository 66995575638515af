import './compare.css';
import { useState } from 'react';
import { CompareBuilds, type CompareBuildsProps } from './CompareBuilds.tsx';
import { CompareModels } from './CompareModels.tsx';
import { useSideBySide } from './useSideBySide.ts';

const kinds = [
  ['builds', 'builds'],
  ['models', 'two models'],
] as const;

/** Builds, or two models, side by side: differences first. */
export function ComparePage(props: CompareBuildsProps) {
  const [kind, setKind] = useState<'builds' | 'models'>('builds');
  return (
    <div className="compare-page">
      <fieldset className="filters no-print" aria-label="What is compared">
        {kinds.map(([value, name]) => (
          <label key={value}>
            <input type="radio" name="compare-kind" value={value} checked={kind === value} onChange={() => setKind(value)} /> {name}
          </label>
        ))}
      </fieldset>
      {kind === 'builds' ? <CompareBuilds {...props} /> : <CompareModels />}
    </div>
  );
}

/** While no build is on the bench there is no search either. */
export function CompareSaved(props: Omit<CompareBuildsProps, 'side'>) {
  const side = useSideBySide(false, null);
  return <ComparePage {...props} side={side} />;
}

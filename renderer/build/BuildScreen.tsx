import './build.css';
import { useCallback, useMemo, useState } from 'react';
import type { KeptStockLine } from '../../db/answers.ts';
import type { PartId, SheetId, SlotId } from '../../reasoner/index.ts';
import { readyConditions } from '../../reasoner/plain/stock-condition.ts';
import { useBench } from '../bench/BenchContext.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { OpenUnits } from '../open/OpenUnits.tsx';
import { type BuildPlace, hrefOf } from '../route/route.ts';
import { BuildBench } from './BuildBench.tsx';
import { BuildSheetPage } from './BuildSheetPage.tsx';
import { BuildStart } from './BuildStart.tsx';
import type { CompareBuildsProps } from './CompareBuilds.tsx';
import { ComparePage, CompareSaved } from './ComparePage.tsx';
import { CompletePage } from './CompletePage.tsx';
import { useCompletion } from './useCompletion.ts';
import { useSideBySide } from './useSideBySide.ts';

const places: readonly { readonly place: BuildPlace; readonly name: string }[] = [
  { place: 'bench', name: 'Bench' },
  { place: 'fill', name: 'Fill the open slots' },
  { place: 'sheet', name: 'Build sheet' },
  { place: 'compare', name: 'Compare' },
  { place: 'start', name: 'Begin another' },
];

/** The tuner's bench: a build on paper, put together, completed, compared and printed. It is the build shown of those that are open, saved like any other sheet. */
export function BuildScreen({ place }: { readonly place: BuildPlace }) {
  const { sheet } = useBench();
  // What lies on the shelves is the default; whoever changes it here has said so for as long as the window is open.
  const [said, setStock] = useState<readonly PartId[] | null>(null);
  const asked = useAsk('stock.list', {});
  const shelves = latest(asked);
  const stock = useMemo(() => said ?? readyParts(shelves ?? []), [said, shelves]);
  const lying = useCallback((part: PartId) => (shelves ?? []).filter((line) => line.part === part), [shelves]);
  const compares = {
    stock: said ?? (shelves !== null ? stock : asked.state === 'trouble' ? null : undefined),
    lying,
  };
  const [begun, setBegun] = useState<{ readonly build: SheetId; readonly several: readonly SlotId[] } | null>(null);
  const planned = sheet.kind === 'planned';
  return (
    <main className="build-screen">
      <h1 className="unseen">Build</h1>
      <nav className="build-places no-print" aria-label="The build">
        <ul>
          {places
            .filter(({ place: one }) => planned || one !== 'start')
            .map((each) => (
              <li key={each.place}>
                <a href={hrefOf({ screen: 'build', place: each.place })} aria-current={each.place === place ? 'page' : undefined}>
                  {each.name}
                </a>
              </li>
            ))}
        </ul>
        {planned && <span className="build-on-bench soft small">On the bench: {sheet.title === '' ? 'untitled build' : sheet.title}</span>}
      </nav>
      <OpenUnits />
      {!planned && place === 'compare' ? (
        <CompareSaved {...compares} />
      ) : !planned || place === 'start' ? (
        <BuildStart onBegun={(build, several) => setBegun({ build, several })} />
      ) : (
        <ShownBuild
          key={sheet.id}
          place={place}
          stock={stock}
          compares={compares}
          several={begun?.build === sheet.id ? begun.several : []}
          onStock={setStock}
        />
      )}
    </main>
  );
}

interface ShownProps {
  readonly place: BuildPlace;
  readonly stock: readonly PartId[];
  readonly compares: Omit<CompareBuildsProps, 'side'>;
  /** Slots for which the first of several listed parts was taken as it was begun. */
  readonly several: readonly SlotId[];
  onStock(stock: readonly PartId[]): void;
}

/** One build; a search begun for it is its own, and so is what is held beside it. */
function ShownBuild({ place, stock, compares, several, onStock }: ShownProps) {
  const search = useCompletion();
  const side = useSideBySide(true, search.stands);
  if (place === 'fill') return <CompletePage search={search} side={side} stock={stock} onStock={onStock} />;
  if (place === 'compare') return <ComparePage {...compares} side={side} />;
  if (place === 'sheet') return <BuildSheetPage stock={stock} />;
  return <BuildBench stock={stock} several={several} />;
}

/** Parts of the atlas of which at least one lies there and may go into a build as it is. */
const readyParts = (lines: readonly KeptStockLine[]): readonly PartId[] => [
  ...new Set(
    lines.flatMap(({ part, slot, many, condition }) =>
      part !== null && slot !== null && many > 0 && readyConditions.includes(condition) ? [part] : [],
    ),
  ),
];

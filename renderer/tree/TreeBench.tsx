import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { TreeAnswer } from '../../db/answers.ts';
import type { ModelId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import type { Words } from '../bridge/words.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { type Pick, type Picks, samePick, withPick } from '../route/picks.ts';
import { goTo } from '../route/route.ts';
import { type Drawing, everywhere, marginWidth } from './drawing.ts';
import { drawTree } from './drawTree.ts';
import { keysOf } from './keysOf.ts';
import { layoutTree } from './layoutTree.ts';
import { type Paper, paperPlan } from './paperPlan.ts';
import { ShapeView } from './ShapeView.tsx';
import { saveTree } from './saveTree.ts';
import type { Reach } from './shapes.ts';
import { TreeCanvas } from './TreeCanvas.tsx';
import { TreeOutline } from './TreeOutline.tsx';
import { TreePair } from './TreePair.tsx';
import { TreePaper } from './TreePaper.tsx';
import { TreeTake } from './TreeTake.tsx';
import { TreeTools } from './TreeTools.tsx';
import type { Overlays, SharedColumn } from './treeLayout.ts';
import type { TreeKey, TreeNode } from './treeNode.ts';
import { nodesWithoutParts, withParts } from './treeNodes.ts';
import { usePicked } from './usePicked.ts';
import { useAnchor, useBringIntoView, usePaper, useWidth } from './usePlaces.ts';
import { useTreeParts } from './useTreeParts.ts';
import { useTreeView } from './useTreeView.ts';

/** The tree once it has been read: what is unfolded, how near, what is picked; the outline and the drawing agree on all of it. */
export function TreeBench({ tree, picks }: { readonly tree: TreeAnswer; readonly picks: Picks }) {
  const words = useWords();
  const view = useTreeView();
  const scroller = useRef<HTMLDivElement>(null);
  const width = useWidth(scroller);
  const [at, setAt] = useState<TreeKey | null>(null);
  const [seen, setSeen] = useState<Reach | null>(null);
  const [said, setSaid] = useState('');
  const [paper, setPaper] = useState<Paper | null>(null);
  const wanted = useRef<Paper>('A4');

  const { nodes, layout, drawing, trouble, forPaper } = useDrawnTree(tree, view, { width, at, seen });
  const { unfolded, overlays } = view;
  const keep = useAnchor(scroller, layout, at);
  const nodeOf = (pick: Pick): TreeNode | null => {
    const [key] = keysOf(nodes, [pick]);
    return key === undefined ? null : (nodes.of.get(key) ?? null);
  };
  const pick = (key: TreeKey) => {
    const ref = nodes.of.get(key)?.ref;
    setAt(key);
    if (ref !== null && ref !== undefined) goTo({ screen: 'tree', picks: withPick(picks, { kind: ref.kind, id: ref.id } as Pick) });
  };
  const fold = (keys: readonly TreeKey[], open: boolean) => {
    keep();
    view.fold(keys, open);
  };

  const { related, chainRefs, picked, chain, pickedOrder } = usePicked(nodes, picks);

  // The drawing follows the outline, and what an address has picked is brought into view.
  useBringIntoView(scroller, layout, at);
  const opened = useRef(false);
  useEffect(() => {
    if (opened.current || picks[0] === undefined) return;
    opened.current = true;
    const [key] = keysOf(nodes, [picks[0]]);
    if (key !== undefined) setAt(key);
  }, [nodes, picks]);

  usePaper(wanted, setPaper);
  const print = (on: Paper) => {
    wanted.current = on;
    window.print();
  };
  const printed = useMemo(() => (paper === null ? null : forPaper(paper)), [paper, forPaper]);

  const title = `${words.vocabulary.packs.map((pack) => pack.title).join(', ')} · family tree · ${words.vocabulary.edition}`;
  const sharing = (node: TreeNode): string => saySharing(tree, overlays, node, words);
  return (
    <>
      <div className="tree-side">
        <TreeOutline
          nodes={nodes}
          unfolded={unfolded}
          orderOf={(key) => pickedOrder.find((one) => one.key === key)?.index ?? -1}
          at={at}
          saySharing={sharing}
          onAt={setAt}
          onPick={pick}
          onFold={fold}
        />
        <TreePair
          picks={picks}
          related={related}
          nodeOf={nodeOf}
          nameOf={(one) => nodeOf(one)?.name ?? chainRefs.find((ref) => samePick(ref, one))?.name ?? one.id}
          onLetGo={(one) => goTo({ screen: 'tree', picks: withPick(picks, one) })}
        />
      </div>
      <div className="tree-main">
        <TreeTools
          view={view}
          onZoom={(stop) => {
            keep();
            view.zoomTo(stop);
          }}
          onLevel={(to) => {
            keep();
            view.showLevel(to);
          }}
        />
        {trouble !== null && <TroubleNote lead="The parts could not be read." trouble={trouble} />}
        <TreeCanvas
          drawing={drawing}
          scroller={scroller}
          picked={picked}
          chain={chain}
          at={at}
          label={`Drawing of the tree, ${layout.years.first} to ${layout.years.newest}; the outline says the same in words`}
          onPick={pick}
          onUnfold={(key) => fold([key], !(layout.byKey.get(key)?.open ?? false))}
          onView={setSeen}
          onZoom={(by) => {
            keep();
            view.zoomTo(by === 0 ? 1 : view.stop + by);
          }}
        />
        <div className="tree-foot">
          <TreeLegend drawing={drawing} />
          <TreeTake said={said} onSave={(as) => void saveTree(drawing, as, title).then(setSaid)} onPrint={print} />
        </div>
      </div>
      {printed !== null && <TreePaper {...printed} title={title} />}
    </>
  );
}

/** The tree laid out and drawn as it is unfolded, with the parts of the models in view or at hand: they are asked for while someone looks. */
function useDrawnTree(
  tree: TreeAnswer,
  { unfolded: { level, byHand }, overlays, scale }: ReturnType<typeof useTreeView>,
  { width, at, seen }: { readonly width: number; readonly at: TreeKey | null; readonly seen: Reach | null },
) {
  const words = useWords();
  const [wanted, setWanted] = useState<readonly ModelId[]>([]);
  const { parts, trouble } = useTreeParts(wanted);
  const bare = useMemo(() => nodesWithoutParts(tree, words.slots), [tree, words.slots]);
  const nodes = useMemo(() => withParts(bare, parts), [bare, parts]);
  const sayShared = useCallback((column: SharedColumn) => column.shared.slots.map((slot) => words.slotName(slot)).join(', '), [words]);

  const layoutFor = useCallback(
    (across: number) => layoutTree(tree, nodes, { unfolded: { level, byHand }, overlays, yearWidth: { across: across - 4, scale } }),
    [tree, nodes, level, byHand, overlays, scale],
  );
  const layout = useMemo(() => layoutFor(width - marginWidth), [layoutFor, width]);
  const drawing = useMemo(() => drawTree(layout, sayShared), [layout, sayShared]);
  // Paper has a width of its own, whatever the window's.
  const forPaper = useCallback(
    (paper: Paper) => {
      const plan = paperPlan(paper, layoutFor);
      return { plan, drawing: drawTree(plan.layout, sayShared) };
    },
    [layoutFor, sayShared],
  );

  // Parts are asked for where a model is unfolded in view, or in the outline at hand.
  useEffect(() => {
    const near = layout.boxes.filter(
      ({ node, open, y0, y1 }) => node.kind === 'model' && open && ((seen !== null && y1 >= seen.y0 && y0 <= seen.y1) || node.key === at),
    );
    const ids = near.flatMap(({ node }) => (node.ref?.kind === 'model' && !parts.has(node.ref.id) ? [node.ref.id] : []));
    setWanted((now) => (ids.join(' ') === now.join(' ') ? now : ids));
  }, [layout, seen, at, parts]);
  return { nodes, layout, drawing, trouble, forPaper };
}

/** With whom a family shares parts, in words, as far as the overlays are on: `shares bearing housing and shaft with Dunlin, Tern`. */
function saySharing(tree: TreeAnswer, overlays: Overlays, { ref }: TreeNode, words: Words): string {
  if (ref?.kind !== 'family') return '';
  return tree.shared
    .filter(({ group, families }) => (group === 'core' ? overlays.cores : overlays.housings) && families.includes(ref.id))
    .map(({ slots, families }) => {
      const others = families.filter((id) => id !== ref.id).map((id) => words.familyName(id));
      return `shares ${slots.map((slot) => words.slotName(slot)).join(' and ')} with ${others.join(', ')}`;
    })
    .join('; ');
}

/** What the signs of the drawing mean. */
function TreeLegend({ drawing: { signs } }: { readonly drawing: Drawing }) {
  return (
    <ul className="tree-legend" aria-label="Signs of the drawing">
      {signs.map((sign) => (
        <li key={sign.text}>
          <svg width={sign.width} height={sign.height} role="img" aria-label={sign.text}>
            {sign.shapesIn(everywhere).map((shape) => (
              <ShapeView key={shape.id} shape={shape} state="" />
            ))}
          </svg>
        </li>
      ))}
    </ul>
  );
}

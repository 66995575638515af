import { type MouseEvent, type RefObject, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { axisHeight, type Drawing, type Field, makerHeight, marginWidth } from './drawing.ts';
import { ShapeView } from './ShapeView.tsx';
import type { Reach, Shape } from './shapes.ts';
import type { TreeKey } from './treeNode.ts';

interface Props {
  readonly drawing: Drawing;
  readonly scroller: RefObject<HTMLDivElement | null>;
  /** Nodes that were picked, and those on the chain between the two. */
  readonly picked: ReadonlySet<TreeKey>;
  readonly chain: ReadonlySet<TreeKey>;
  /** The outline's place, marked in the drawing while the outline has the focus. */
  readonly at: TreeKey | null;
  readonly label: string;
  onPick(node: TreeKey): void;
  onUnfold(node: TreeKey): void;
  onView(view: Reach): void;
  /** 1 nearer, -1 further, 0 to where the tree opens. */
  onZoom(by: -1 | 0 | 1): void;
}

/** Shapes are looked for in view only when it has moved by this much, in px. */
const stride = 400;

/**
 * The drawing in a field that scrolls, the years kept over it and the makers beside it. Only what is in view or just outside is in the
 * document. The outline says the same to those who do not see it, or use no mouse.
 */
export function TreeCanvas({ drawing, scroller, picked, chain, at, label, onPick, onUnfold, onView, onZoom }: Props) {
  const [view, setView] = useState<Reach>({ x0: 0, x1: 2 * stride, y0: 0, y1: 2 * stride });

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new drawing is looked at anew.
  useLayoutEffect(() => {
    const box = scroller.current;
    if (box === null) return;
    const look = () => {
      const down = (value: number) => Math.floor(value / stride) * stride;
      const next = {
        x0: down(box.scrollLeft) - stride,
        x1: down(box.scrollLeft + box.clientWidth) + 2 * stride,
        y0: down(box.scrollTop) - stride,
        y1: down(box.scrollTop + box.clientHeight) + 2 * stride,
      };
      setView((now) => (now.x0 === next.x0 && now.x1 === next.x1 && now.y0 === next.y0 && now.y1 === next.y1 ? now : next));
    };
    look();
    box.addEventListener('scroll', look, { passive: true });
    const resized = new ResizeObserver(look);
    resized.observe(box);
    return () => {
      box.removeEventListener('scroll', look);
      resized.disconnect();
    };
  }, [drawing, scroller]);

  useEffect(() => onView(view), [view, onView]);

  const zoom = useRef(onZoom);
  zoom.current = onZoom;
  // The wheel zooms with Ctrl held, as it does everywhere; React listens to it passively and could not keep the page from zooming.
  useEffect(() => {
    const box = scroller.current;
    if (box === null) return;
    let turned = 0;
    const wheel = (event: WheelEvent) => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      turned += event.deltaY;
      if (Math.abs(turned) < 60) return;
      zoom.current(turned < 0 ? 1 : -1);
      turned = 0;
    };
    box.addEventListener('wheel', wheel, { passive: false });
    return () => box.removeEventListener('wheel', wheel);
  }, [scroller]);

  const nodeUnder = (event: MouseEvent): TreeKey | null =>
    event.target instanceof Element ? (event.target.closest('[data-node]')?.getAttribute('data-node') ?? null) : null;

  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for entries; this is a drawing that scrolls.
    <div
      className="tree-scroll"
      ref={scroller}
      role="group"
      aria-label={label}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard; the arrow keys then scroll it.
      tabIndex={0}
      onKeyDown={(event) => {
        const by = event.key === '+' || event.key === '=' ? 1 : event.key === '-' ? -1 : event.key === '0' ? 0 : null;
        if (by === null || event.ctrlKey || event.altKey || event.metaKey) return;
        event.preventDefault();
        onZoom(by);
      }}
    >
      {/* biome-ignore lint/a11y/noStaticElementInteractions: picking by mouse is an addition; the outline does the same by keyboard. */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: as above */}
      <div
        className="tree-fields"
        style={{ gridTemplateColumns: `${marginWidth}px ${drawing.body.width}px` }}
        onClick={(event) => {
          const node = nodeUnder(event);
          if (node !== null) onPick(node);
        }}
        onDoubleClick={(event) => {
          const node = nodeUnder(event);
          if (node !== null) onUnfold(node);
        }}
      >
        <div className="tree-corner" />
        <FieldView field={drawing.axis} className="tree-axis" view={{ ...view, y0: 0, y1: axisHeight }} />
        <MakersView drawing={drawing} picked={picked} chain={chain} at={at} />
        <FieldView field={drawing.body} className="tree-body" view={view} picked={picked} chain={chain} at={at} />
      </div>
    </div>
  );
}

interface MakersProps {
  readonly drawing: Drawing;
  readonly picked: ReadonlySet<TreeKey>;
  readonly chain: ReadonlySet<TreeKey>;
  readonly at: TreeKey | null;
}

/** The makers beside their rows; a name stays in view as long as any of its rows is. */
function MakersView({ drawing: { margin, bands }, picked, chain, at }: MakersProps) {
  return (
    <div className="tree-margin">
      {bands.map(({ key, y0, y1 }) => {
        const height = Math.min(makerHeight, y1 - y0);
        const shapes = margin.shapesIn({ x0: 0, x1: marginWidth, y0: y0 + 1, y1: y1 - 1 });
        return (
          <div key={key} style={{ height: y1 - y0 }}>
            <svg width={marginWidth} height={height} viewBox={`0 ${y0} ${marginWidth} ${height}`} aria-hidden="true" focusable="false">
              {shapes.map((shape) => (
                <ShapeView key={shape.id} shape={shape} state={stateOf(shape, picked, chain, at)} />
              ))}
            </svg>
          </div>
        );
      })}
    </div>
  );
}

const none: ReadonlySet<TreeKey> = new Set();

interface FieldProps {
  readonly field: Field;
  readonly className: string;
  readonly view: Reach;
  readonly picked?: ReadonlySet<TreeKey>;
  readonly chain?: ReadonlySet<TreeKey>;
  readonly at?: TreeKey | null;
}

function FieldView({ field, className, view, picked = none, chain = none, at = null }: FieldProps) {
  const { x0, x1, y0, y1 } = view;
  const seen = useMemo(() => field.shapesIn({ x0, x1, y0, y1 }), [field, x0, x1, y0, y1]);
  return (
    <div className={className}>
      <svg width={field.width} height={field.height} aria-hidden="true" focusable="false">
        {seen.map((shape) => (
          <ShapeView key={shape.id} shape={shape} state={stateOf(shape, picked, chain, at)} />
        ))}
      </svg>
    </div>
  );
}

function stateOf(shape: Shape, picked: ReadonlySet<TreeKey>, chain: ReadonlySet<TreeKey>, at: TreeKey | null): string {
  if (shape.joins !== undefined) {
    // A line has two ends; what many share is no step of a chain.
    if (shape.joins.length === 2 && !shape.shares && shape.joins.every((key) => chain.has(key))) return 'is-chain';
    return picked.size > 0 && shape.joins.some((key) => picked.has(key)) ? 'is-lit' : '';
  }
  if (shape.node === undefined) return '';
  const states = ['is-node'];
  if (picked.has(shape.node)) states.push('is-picked');
  else if (chain.has(shape.node)) states.push('is-on-chain');
  if (shape.node === at) states.push('is-at');
  return states.join(' ');
}

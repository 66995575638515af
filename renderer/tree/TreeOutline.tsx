import { type KeyboardEvent, type RefObject, useEffect, useMemo, useRef, useState } from 'react';
import { isOpen, type TreeKey, type TreeNode, type TreeNodes, type Unfolded } from './treeNode.ts';

interface Props {
  readonly nodes: TreeNodes;
  readonly unfolded: Unfolded;
  /** 0 or 1 for the first or second picked, -1 for the rest. */
  orderOf(node: TreeKey): number;
  readonly at: TreeKey | null;
  /** What is shared by the node, in words; empty where that overlay is off or nothing is. */
  saySharing(node: TreeNode): string;
  onAt(node: TreeKey | null): void;
  onPick(node: TreeKey): void;
  onFold(nodes: readonly TreeKey[], open: boolean): void;
}

interface Row {
  readonly node: TreeNode;
  readonly depth: number;
  readonly place: number;
  readonly siblings: number;
  readonly open: boolean | null;
}

const rowHeight = 25;
const beyond = 12;

/**
 * The tree in words, by the tree pattern of the ARIA authoring practices: arrows walk, fold and unfold, Home and End go to the ends, letters find
 * a name, `*` unfolds all beside it, Enter or Space picks. Only rows in view are in the document; each says its level and place.
 */
export function TreeOutline({ nodes, unfolded, orderOf, at, saySharing, onAt, onPick, onFold }: Props) {
  const rows = useMemo(() => rowsOf(nodes, unfolded), [nodes, unfolded]);
  const box = useRef<HTMLDivElement>(null);
  const view = useRowsInView(box);
  const [held, setHeld] = useState(false);
  const typed = useRef({ text: '', when: 0 });
  const active = Math.max(
    0,
    rows.findIndex(({ node }) => node.key === at),
  );

  // The row that has the focus is brought into view and, once it is in the document, given the focus.
  useEffect(() => {
    const scroller = box.current;
    if (scroller === null) return;
    const top = active * rowHeight;
    if (top < scroller.scrollTop) scroller.scrollTop = top;
    else if (top + rowHeight > scroller.scrollTop + scroller.clientHeight) scroller.scrollTop = top + rowHeight - scroller.clientHeight;
    if (held) scroller.querySelector<HTMLElement>('[tabindex="0"]')?.focus({ preventScroll: true });
  }, [active, held]);

  const go = (index: number) => {
    const row = rows[Math.min(Math.max(index, 0), rows.length - 1)];
    if (row !== undefined) onAt(row.node.key);
  };

  const onKeyDown = (event: KeyboardEvent) => {
    const row = rows[active];
    if (row === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
    const handled = walk(event.key, row);
    if (handled) event.preventDefault();
  };
  const walk = (key: string, row: Row): boolean => {
    // What was typed before a step elsewhere is no beginning of what is typed after it.
    if (key.length > 1 || key === ' ') typed.current = { text: '', when: 0 };
    switch (key) {
      case 'ArrowDown':
        go(active + 1);
        return true;
      case 'ArrowUp':
        go(active - 1);
        return true;
      case 'Home':
        go(0);
        return true;
      case 'End':
        go(rows.length - 1);
        return true;
      case 'ArrowRight':
        // What sits in a slot may not have come yet: the wish to see it is kept until it has.
        if (row.open === false || (row.open === null && row.node.kind === 'slot')) onFold([row.node.key], true);
        else if (row.open === true) go(active + 1);
        return true;
      case 'ArrowLeft':
        if (row.open === true) onFold([row.node.key], false);
        else if (row.node.parent !== null) onAt(row.node.parent);
        return true;
      case '*':
        onFold(
          rows.filter(({ node, open }) => node.parent === row.node.parent && open === false).map(({ node }) => node.key),
          true,
        );
        return true;
      case 'Enter':
      case ' ':
        onPick(row.node.key);
        return true;
      default:
        return key.length === 1 && find(key);
    }
  };
  const find = (letter: string): boolean => {
    const now = performance.now();
    const text = (now - typed.current.when < 900 ? typed.current.text : '') + letter.toLowerCase();
    typed.current = { text, when: now };
    // A single letter again goes to the next of that letter; more letters stay while they still fit.
    const first = text.length === 1 ? active + 1 : active;
    for (let step = 0; step < rows.length; step += 1) {
      const index = (first + step) % rows.length;
      if (rows[index]?.node.name.toLowerCase().startsWith(text)) {
        go(index);
        return true;
      }
    }
    return true;
  };

  const shown = rows
    .map((row, index) => ({ row, index }))
    .filter(({ index }) => (index >= view.from && index <= view.to) || index === active);
  return (
    <div
      ref={box}
      role="tree"
      aria-label="Outline of the tree"
      aria-multiselectable="true"
      className="outline"
      onKeyDown={onKeyDown}
      onFocus={() => setHeld(true)}
      onBlur={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget)) setHeld(false);
      }}
    >
      <div role="presentation" className="outline-rows" style={{ height: rows.length * rowHeight }}>
        {shown.map(({ row, index }) => (
          <OutlineRow
            key={row.node.key}
            row={row}
            index={index}
            active={index === active}
            order={orderOf(row.node.key)}
            sharing={saySharing(row.node)}
            onFocus={() => onAt(row.node.key)}
            onPick={() => onPick(row.node.key)}
            onFold={() => onFold([row.node.key], row.open !== true)}
          />
        ))}
      </div>
    </div>
  );
}

/** Which rows the box shows, with some beyond at either end. */
function useRowsInView(box: RefObject<HTMLDivElement | null>): { readonly from: number; readonly to: number } {
  const [view, setView] = useState({ from: 0, to: 40 });
  useEffect(() => {
    const scroller = box.current;
    if (scroller === null) return;
    const look = () => {
      const from = Math.max(0, Math.floor(scroller.scrollTop / rowHeight) - beyond);
      const to = Math.ceil((scroller.scrollTop + scroller.clientHeight) / rowHeight) + beyond;
      setView((now) => (now.from === from && now.to === to ? now : { from, to }));
    };
    look();
    scroller.addEventListener('scroll', look, { passive: true });
    const resized = new ResizeObserver(look);
    resized.observe(scroller);
    return () => {
      scroller.removeEventListener('scroll', look);
      resized.disconnect();
    };
  }, [box]);
  return view;
}

interface RowProps {
  readonly row: Row;
  readonly index: number;
  readonly active: boolean;
  /** 0 or 1 where it is the first or second picked; -1 where it is not. */
  readonly order: number;
  readonly sharing: string;
  onFocus(): void;
  onPick(): void;
  onFold(): void;
}

function OutlineRow({ row, index, active, order, sharing, onFocus, onPick, onFold }: RowProps) {
  const { node, depth, place, siblings, open } = row;
  const years = sayNodeYears(node);
  const more = [node.role === undefined ? '' : roleWords[node.role], node.lines, sharing].filter((text) => text !== '').join('; ');
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: keys are heard by the tree as a whole.
    <div
      role="treeitem"
      className={`outline-row is-${node.kind}`}
      tabIndex={active ? 0 : -1}
      aria-level={depth}
      aria-posinset={place}
      aria-setsize={siblings}
      aria-expanded={open ?? undefined}
      aria-selected={order >= 0}
      style={{ top: index * rowHeight, paddingInlineStart: 6 + (depth - 1) * 13 }}
      onFocus={onFocus}
      onClick={onPick}
    >
      <span
        className="outline-fold"
        aria-hidden="true"
        onClick={(event) => {
          if (open === null) return;
          event.stopPropagation();
          onFold();
        }}
      >
        {open === null ? '' : open ? '▾' : '▸'}
      </span>
      <span className="outline-name">
        {node.name}
        {order >= 0 && <span className="outline-order">{order === 0 ? 'first' : 'second'}</span>}
        {more !== '' && <span className="outline-more">{more}</span>}
      </span>
      {years !== '' && <span className="outline-years">{years}</span>}
    </div>
  );
}

const roleWords = { names: 'names the model', option: 'option', service: 'may be replaced freely' } as const;

/** The years of a node in words; a slot or part has none, and is not said to have unknown ones. */
export function sayNodeYears({ kind, from, to }: TreeNode): string {
  if (kind === 'slot' || kind === 'part' || kind === 'maker') return '';
  if (from === null) return to === null ? 'years not known' : `not known to ${to}`;
  return to === null ? `from ${from}` : `${from} to ${to}`;
}

function rowsOf(nodes: TreeNodes, unfolded: Unfolded): readonly Row[] {
  const rows: Row[] = [];
  const walk = (keys: readonly TreeKey[], depth: number) => {
    keys.forEach((key, index) => {
      const node = nodes.of.get(key);
      if (node === undefined) return;
      const open = node.children.length === 0 ? null : isOpen(nodes, unfolded, node);
      rows.push({ node, depth, place: index + 1, siblings: keys.length, open });
      if (open === true) walk(node.children, depth + 1);
    });
  };
  walk(nodes.roots, 1);
  return rows;
}

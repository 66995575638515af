import type { StylesheetJson } from 'cytoscape';

/** The window's own colours, as the canvas needs them: resolved through a probe, since tokens differ by theme. */
export function graphLook(within: HTMLElement): StylesheetJson {
  const probe = within.appendChild(document.createElement('span'));
  const colour = (token: string) => {
    probe.style.color = `var(--${token})`;
    return getComputedStyle(probe).color;
  };
  const ink = colour('ink');
  const soft = colour('ink-soft');
  const leaf = colour('leaf');
  const ground = colour('paper');
  const faint = colour('ink-faint');
  const line = colour('line-strong');
  const out = colour('out');
  const outWash = colour('out-wash');
  const accent = colour('accent');
  const font = getComputedStyle(within).fontFamily;
  probe.remove();
  return [
    {
      selector: 'node',
      style: {
        width: 'data(width)',
        height: 'data(height)',
        label: 'data(label)',
        color: ink,
        'font-family': font,
        'font-size': 12,
        'text-valign': 'center',
        'text-halign': 'center',
        'text-wrap': 'ellipsis',
        'background-color': leaf,
        'border-width': 1,
        'border-color': line,
        'overlay-opacity': 0,
      },
    },
    // Shape tells the kind apart without colour: plate, box, broken box, diamond, cut corners.
    {
      selector: 'node[kind="slot"]',
      style: { shape: 'round-rectangle', 'border-width': 1.5, 'border-color': soft, 'font-weight': 600, 'text-max-width': '112px' },
    },
    { selector: 'node[kind="observation"]', style: { shape: 'rectangle', 'text-max-width': '166px' } },
    { selector: 'node[kind="absent"]', style: { shape: 'rectangle', 'border-style': 'dashed', 'text-max-width': '166px' } },
    {
      selector: 'node[kind="joint"]',
      style: {
        shape: 'diamond',
        'background-color': soft,
        'border-color': soft,
        'text-halign': 'right',
        'text-margin-x': 5,
        'text-wrap': 'wrap',
        'text-max-width': '122px',
        'line-height': 0.95,
        'text-justification': 'left',
        'font-size': 11,
        color: soft,
        // The name's demands run behind; their lines stop at the words.
        'text-background-color': ground,
        'text-background-opacity': 1,
        'text-background-padding': '1px',
      },
    },
    { selector: 'node[kind="rule"]', style: { shape: 'cut-rectangle', 'border-color': soft, 'text-max-width': '72px', 'font-size': 11 } },
    { selector: 'edge', style: { width: 1, 'line-color': line, 'curve-style': 'straight', 'overlay-opacity': 0 } },
    // Joints and demands meet a slot on its right side, entries on its left: no line runs behind another part.
    { selector: 'edge[kind="joint"], edge[kind="rule"]', style: { 'target-endpoint': '90deg' } },
    { selector: 'edge[kind="rule"]', style: { 'line-style': 'dashed' } },
    { selector: '.dim', style: { opacity: 0.55 } },
    // Not by opacity: a line would shine through its words.
    { selector: 'node.dim[kind="joint"]', style: { opacity: 1, color: faint, 'background-color': line, 'border-color': line } },
    { selector: 'node.lit', style: { 'border-width': 2.5, 'border-color': out, 'background-color': outWash, color: ink } },
    { selector: 'node.lit[kind="joint"]', style: { 'background-color': out, color: ink, 'font-weight': 600 } },
    { selector: 'edge.lit', style: { width: 3, 'line-color': out } },
    { selector: 'node.picked', style: { 'border-width': 3.5, 'border-color': accent } },
  ];
}

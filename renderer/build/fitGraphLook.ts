import type { StylesheetJson } from 'cytoscape';

/** The window's own colours, as the canvas needs them: resolved through a probe, since tokens differ by theme. */
export function fitGraphLook(within: HTMLElement): StylesheetJson {
  const probe = within.appendChild(document.createElement('span'));
  const colour = (token: string) => {
    probe.style.color = `var(--${token})`;
    return getComputedStyle(probe).color;
  };
  const [ink, soft, leaf, line] = [colour('ink'), colour('ink-soft'), colour('leaf'), colour('line-strong')];
  const [stands, open, out, accent, paper] = [colour('stands'), colour('open'), colour('out'), colour('accent'), colour('paper')];
  const font = getComputedStyle(within).fontFamily;
  probe.remove();
  return [
    {
      selector: 'node',
      style: {
        shape: 'round-rectangle',
        width: 122,
        height: 26,
        label: 'data(label)',
        color: ink,
        'font-family': font,
        'font-size': 12,
        'font-weight': 600,
        'text-valign': 'center',
        'text-halign': 'center',
        'background-color': leaf,
        'border-width': 1.5,
        'border-color': soft,
        'overlay-opacity': 0,
      },
    },
    { selector: 'node[!filled]', style: { 'border-style': 'dashed', 'border-color': line, 'font-weight': 400, color: soft } },
    // The line tells the verdict without colour: whole, long dashes, dots, and a heavy bar for what will not fit.
    {
      selector: 'edge',
      style: {
        width: 2.5,
        'curve-style': 'unbundled-bezier',
        'control-point-distances': 'data(bend)',
        'control-point-weights': 0.5,
        label: 'data(number)',
        'font-family': font,
        'font-size': 12,
        'font-weight': 600,
        color: ink,
        'text-background-color': paper,
        'text-background-opacity': 1,
        'text-background-padding': '3px',
        'text-background-shape': 'roundrectangle',
        'overlay-opacity': 0,
      },
    },
    { selector: 'edge[verdict="drops in"]', style: { 'line-color': stands } },
    {
      selector: 'edge[verdict="after work"]',
      style: { 'line-color': open, 'line-style': 'dashed', 'line-dash-pattern': [12, 4], width: 3.5 },
    },
    { selector: 'edge[verdict="not known"]', style: { 'line-color': open, 'line-style': 'dotted', width: 3 } },
    { selector: 'edge[verdict="will not fit"]', style: { 'line-color': out, width: 6 } },
    { selector: 'edge[verdict="waits"]', style: { 'line-color': line, width: 1, color: soft, 'font-weight': 400 } },
    { selector: '.dim', style: { opacity: 0.35 } },
    { selector: 'edge.picked', style: { 'underlay-color': accent, 'underlay-opacity': 0.28, 'underlay-padding': 5 } },
    { selector: 'node.picked', style: { 'border-width': 3, 'border-color': accent } },
  ];
}

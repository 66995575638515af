import type { Ink } from './shapes.ts';
import type { Faces } from './svgText.ts';

/** The colours and faces of the window by day, written out: what leaves the window is for paper, whatever the window shows now. */
export function dayColours(): { readonly palette: (ink: Ink) => string; readonly faces: Faces } {
  const probe = document.createElement('span');
  probe.style.colorScheme = 'light';
  probe.hidden = true;
  document.body.append(probe);
  const known = new Map<Ink, string>();
  const read = (ink: Ink): string => {
    document.body.append(probe);
    probe.style.color = `var(--${ink})`;
    const colour = getComputedStyle(probe).color;
    probe.remove();
    return colour;
  };
  const style = getComputedStyle(document.documentElement);
  const faces = { text: style.getPropertyValue('--text').trim(), title: style.getPropertyValue('--title').trim() };
  probe.remove();
  return {
    palette: (ink) => {
      const colour = known.get(ink) ?? read(ink);
      known.set(ink, colour);
      return colour;
    },
    faces,
  };
}

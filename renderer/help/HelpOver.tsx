import { type Screen, useRoute } from '../route/route.ts';
import { HelpScreen } from './HelpScreen.tsx';
import { useHelpKey } from './useHelp.ts';

interface Props {
  /** Where F1 opens it. */
  readonly opensAt: string | null;
  /** The screen it stands over; null where none is drawn yet. */
  readonly here: Screen | null;
}

/** The help page, over whatever stands in the window, as long as the address says so. What is behind it keeps all that was begun there. */
export function HelpOver({ opensAt, here }: Props) {
  const route = useRoute();
  const open = route.screen === 'help';
  useHelpKey(open, opensAt);
  return open ? <HelpScreen at={route.at} here={here} /> : null;
}

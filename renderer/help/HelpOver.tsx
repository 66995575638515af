import { useRoute } from '../route/route.ts';
import { HelpScreen } from './HelpScreen.tsx';
import { useHelpKey } from './useHelp.ts';

/** The help page, over whatever stands in the window, as long as the address says so; F1 opens it at `opensAt`. What is behind it keeps all that was begun there. */
export function HelpOver({ opensAt }: { readonly opensAt: string | null }) {
  const route = useRoute();
  const open = route.screen === 'help';
  useHelpKey(open, opensAt);
  return open ? <HelpScreen at={route.at} /> : null;
}

import type { MouseEvent } from 'react';
import { keys } from '../look/keys.ts';
import { shortcuts } from '../look/presses.ts';
import { hrefOf } from '../route/route.ts';
import { openHelp } from './useHelp.ts';

/** The way to help, at what belongs to the screen. */
export function HelpLink({ at }: { readonly at: string }) {
  const open = (event: MouseEvent): void => {
    // In another tab it is the browser’s to open.
    if (event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    openHelp(at);
  };
  return (
    <a
      className="button plain no-print"
      href={hrefOf({ screen: 'help', at })}
      title="What can be done here, and its keys: F1 or ?"
      aria-keyshortcuts={shortcuts(keys.everywhere.lines.help)}
      onClick={open}
    >
      Help
    </a>
  );
}

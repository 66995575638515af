import './number.css';
import { useState } from 'react';
import { keys } from '../look/keys.ts';
import { shortcuts } from '../look/presses.ts';
import { hrefOf, useScreen } from '../route/route.ts';
import { NumberDialog } from './NumberDialog.tsx';
import { useNumberKey } from './useNumberKey.ts';

/** The way to a part number from anywhere: a button in the top bar, and F2. */
export function NumberAsk() {
  const [open, setOpen] = useState(false);
  const here = hrefOf(useScreen());
  // A link in the answer leads away from it.
  const [place, setPlace] = useState(here);
  if (place !== here) {
    setPlace(here);
    setOpen(false);
  }
  useNumberKey(() => setOpen(true));
  return (
    <>
      <button
        type="button"
        className="button plain no-print number-ask"
        title="Find a part by its number: F2"
        aria-keyshortcuts={shortcuts(keys.everywhere.lines.number)}
        onClick={() => setOpen(true)}
      >
        Number
      </button>
      {open && <NumberDialog onLeave={() => setOpen(false)} />}
    </>
  );
}

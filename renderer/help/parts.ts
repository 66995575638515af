import type { HelpPart } from './help.ts';
import { answers } from './parts/answers.ts';
import { filling } from './parts/filling.ts';
import { fromCounter } from './parts/fromCounter.ts';
import { house } from './parts/house.ts';
import { counter, hybrid, learning } from './parts/readers.ts';
import { sharing } from './parts/sharing.ts';
import { label, say } from './said.ts';

const keeping: HelpPart = {
  id: 'keeping',
  head: 'Keeping the atlas',
  lead: say`What a shop knows goes into the atlas as changes: each is shown before it is made, kept with who and why, and can be undone. All of it begins at ${label('Atlas')} in the bar.`,
  counted: true,
  sections: [...filling, ...fromCounter, ...sharing, ...house],
};

/** All of help, in the order it is read; the keys come after it. */
export const parts: readonly HelpPart[] = [answers, counter, hybrid, learning, keeping];

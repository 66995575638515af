/** What some keys do. Several that do the same, or go two ways, stand together: `Ctrl+S`, `Alt+↓`. On a Mac Cmd does what Ctrl does. */
export interface KeyLine {
  readonly press: readonly string[];
  readonly does: string;
}

/** The keys of one screen, or of what many screens have. */
export interface KeyGroup {
  readonly head: string;
  readonly lines: Readonly<Record<string, KeyLine>>;
}

/**
 * Every key the window listens to, by where it does. The help page shows this list; what listens either asks `presses` about a line of it, or is held against it by a
 * test that reads the sources.
 */
export const keys = {
  everywhere: {
    head: 'On every screen',
    lines: {
      help: { press: ['F1', '?'], does: 'help: the keys of this screen, and what is done here; ? not while writing' },
      number: { press: ['F2'], does: 'asks for a part number' },
      save: { press: ['Ctrl+S'], does: 'saves the sheet on the bench; in a form of the atlas, makes the change' },
      undo: { press: ['Ctrl+Z'], does: 'takes back the last entry on the sheet; in a text, what was typed' },
      redo: { press: ['Ctrl+Y', 'Ctrl+Shift+Z'], does: 'puts it back' },
      nextUnit: { press: ['Alt+PageDown'], does: 'to the next open unit or build' },
      unitBefore: { press: ['Alt+PageUp'], does: 'to the one before' },
      leave: { press: ['Escape'], does: 'leaves a box over the window, a list, an entry, this page' },
    },
  },
  boxes: {
    head: 'In a box that finds while you type',
    lines: {
      walk: { press: ['↓', '↑'], does: 'along what was found' },
      take: { press: ['Enter'], does: 'takes the one that is marked' },
      all: { press: ['Alt+↓'], does: 'shows all there is' },
      close: { press: ['Escape'], does: 'closes the list; again, empties the box' },
      clear: { press: ['Backspace', 'Delete'], does: 'in an empty box: takes away what was picked' },
    },
  },
  lists: {
    head: 'In lists that are searched: atlas, glossary, cases, stock, prices, what can be edited',
    lines: {
      in: { press: ['↓'], does: 'from the search into the list, and on' },
      open: { press: ['Enter'], does: 'in the search: opens the first that was found' },
      out: { press: ['↑'], does: 'back; from the first line to the search' },
      fold: { press: ['→', '←'], does: 'in the atlas: unfolds and folds the models of a family' },
    },
  },
  unit: {
    head: 'Unit',
    lines: {
      slots: { press: ['↓', '↑'], does: 'from slot to slot; from an entry, to the next' },
      on: { press: ['Enter'], does: 'in the name it is offered under: on to the first slot' },
      enter: { press: ['Enter'], does: 'opens the feature that is marked; in it, takes the value' },
      choose: { press: ['a … z', 'Space'], does: 'at a choice: letters and figures go to what begins so; picks it' },
      leave: { press: ['Escape'], does: 'leaves an entry as it was' },
      remove: { press: ['Delete', 'Backspace'], does: 'on an entry: removes it' },
      next: { press: ['Ctrl+Enter'], does: 'opens the next check; from an entry, takes that first' },
      unseen: { press: ['Ctrl+Shift+Enter'], does: 'answers the next check with “could not see”' },
      copy: { press: ['F9'], does: 'copies the words for the ticket' },
      pages: { press: ['→', '←'], does: 'on the heads under the answer: the next, the one before' },
      graph: { press: ['↓', '↑'], does: 'along the reasons in words, beside the graph' },
      plan: { press: ['↓', '↑', '→', '←', 'Home', 'End'], does: 'along the whole plan; → unfolds, ← folds' },
      fold: { press: ['Enter', 'Space'], does: 'in the plan: unfolds or folds' },
    },
  },
  guided: {
    head: 'The guided first case, while it is followed',
    lines: {
      go: { press: ['F4'], does: 'goes to what its step points at' },
    },
  },
  counting: {
    head: 'Counting blades',
    lines: {
      tap: { press: ['1', '2', '…', '9'], does: 'one of that kind has passed' },
      back: { press: ['Backspace'], does: 'takes the last one back' },
      round: { press: ['Enter'], does: 'once round' },
    },
  },
  listing: {
    head: 'Reading a listing',
    lines: {
      on: { press: ['Ctrl+Enter'], does: 'reads it; then puts what it claims on the sheet' },
    },
  },
  build: {
    head: 'Build',
    lines: {
      slots: { press: ['↓', '↑', 'Home', 'End'], does: 'along the slots, the parts, the joints' },
    },
  },
  tree: {
    head: 'Tree',
    lines: {
      walk: { press: ['↓', '↑', 'Home', 'End'], does: 'along the outline' },
      fold: { press: ['→', '←'], does: 'unfolds, and goes in; folds, and goes out' },
      level: { press: ['*'], does: 'unfolds all beside it' },
      pick: { press: ['Enter', 'Space'], does: 'picks it; a second one is held beside it' },
      find: { press: ['a … z'], does: 'goes to the next that begins so' },
      zoom: { press: ['+', '=', '-', '0'], does: 'on the drawing: nearer, nearer, further, as it was' },
    },
  },
  drills: {
    head: 'Drills',
    lines: {
      choose: { press: ['1', '2', '…', '9'], does: 'chooses an answer' },
      back: { press: ['Backspace'], does: 'takes the last choice back' },
    },
  },
  forms: {
    head: 'Editing the atlas',
    lines: {
      make: { press: ['Ctrl+S'], does: 'makes the change' },
      on: { press: ['Enter', '↓'], does: 'in what is known of a part: the next line' },
      back: { press: ['Shift+Enter', '↑'], does: 'the line before' },
      add: { press: ['Ctrl+Enter', 'Enter'], does: 'in a list: one more beneath; in a list of short lines Enter alone' },
      takeAway: { press: ['Ctrl+Backspace', 'Backspace'], does: 'takes the line away; an empty short line with Backspace alone' },
      move: { press: ['Alt+↓', 'Alt+↑'], does: 'moves the line' },
      role: { press: ['N', 'O', 'S', 'Enter'], does: 'on a role: names, option, service; Enter goes back to the box' },
    },
  },
  table: {
    head: 'Bringing a spreadsheet',
    lines: {
      columns: { press: ['↓', '↑'], does: 'from column to column, where the box is empty' },
      cells: { press: ['↓', '↑', '→', '←', 'PageDown', 'PageUp', 'Home', 'End'], does: 'from cell to cell' },
      next: { press: ['F8'], does: 'the next cell to mend' },
      before: { press: ['Shift+F8'], does: 'the one before' },
      write: { press: ['Enter', 'F2'], does: 'writes on in the cell; typing writes it anew' },
      written: { press: ['Enter', 'Tab'], does: 'ends writing' },
      leave: { press: ['Escape'], does: 'leaves the cell as it was' },
      empty: { press: ['Delete', 'Backspace'], does: 'empties it' },
    },
  },
} as const satisfies Readonly<Record<string, KeyGroup>>;

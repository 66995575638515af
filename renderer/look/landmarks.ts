/**
 * Places of a screen that keys and the focus are led to. They are told by an attribute of their own and not by how they look, so that a style may change
 * without a key going astray.
 * - `own undo`: a form or page in which undo is the text field's own
 * - `value`: where the value of an entry is given
 * - `claim`: the name a unit is offered under
 * - `add a feature`: the box of a slot that adds an entry
 * - `find`: what a seller's listing is read to claim
 * - `main action`: the button that ends a dialog with its work done
 * - `shown unit`: in the strip of open units, the one that is shown
 * - `search`: the box a list on a page is narrowed by; `list`: that list
 */
export type Landmark = 'own undo' | 'value' | 'claim' | 'add a feature' | 'find' | 'main action' | 'shown unit' | 'search' | 'list';

/** The attribute that makes an element one. */
export const landmark = (is: Landmark) => ({ 'data-landmark': is }) as const;

/** A selector for it, or for elements in it. */
export const at = (is: Landmark, within?: string): string => `[data-landmark="${is}"]${within === undefined ? '' : ` ${within}`}`;

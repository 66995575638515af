import type { HelpSection } from '../help.ts';
import { label, say } from '../said.ts';

/** Packs, changes and keys. */
export const sharing: readonly HelpSection[] = [
  {
    id: 'pack',
    head: 'Put a pack in, and take it out',
    begins: { at: { screen: 'packs' }, is: label('Packs') },
    steps: [
      say`Under ${label('Atlas')}: ${label('Put packs in, take them out, write them out')}. The mark ${label('invented data')} in the bar leads there too.`,
      say`What stands under ${label('Comes with the program')} goes in by ${label('Put in')}. Somebody’s pack: ${label('Choose a folder…')} or ${label('Choose a ZIP…')}.`,
      say`Faults are listed all at once, each with file, row and column; nothing was put in then. Mend them and choose the pack again.`,
      say`A sound pack shows what it adds, alters and takes away, and who signed it. ${label('Put it in')}.`,
      say`${label('Take out')} takes it with all it brought; a backup is made first. A pack that another leans on says so instead.`,
      say`${label('Write out')} gives one ZIP. What this shop put in itself is a pack as well, “This shop’s own atlas”, and is written out in the same way.`,
    ],
  },
  {
    id: 'newer-edition',
    head: 'Take a newer edition, and decide where it disagrees',
    begins: { at: { screen: 'packs' }, is: label('Packs') },
    steps: [
      say`Choose the newer edition as any pack. It says which edition it takes the place of.`,
      say`${label('Where your shop said otherwise')} lists every disagreement: ${label('The edition we have says')}, ${label('We say')}, ${label('The new edition says')}.`,
      say`At ${label('What shall stand')} decide each: ${label('what we say')} or ${label('what the pack says')}. Or all alike: ${label('Keep all of ours')}, ${label('Take all of the pack’s')}.`,
      say`When none is left undecided: ${label('Put it in')}.`,
    ],
  },
  {
    id: 'history',
    head: 'Look at the history, and undo a change',
    begins: { at: { screen: 'history', of: null }, is: label('History of the atlas') },
    steps: [
      say`Under ${label('Atlas')}: ${label('Every change of the atlas, and how it stood on a day')}. Of one entry: ${label('History')} on its page.`,
      say`${label('Look at it')} shows below the list what a change altered, before and after.`,
      say`${label('Undo it…')} says what would be as before, what would follow, and what stays because something later rests on it. Then ${label('Who')}, ${label('Why')}, and ${label('Undo it')} or ${label('Undo the rest')}. An undo is a change as well, and can be undone.`,
      say`${label('As it stood at the end of')} shows the atlas, or the entry, on a day.`,
    ],
  },
  {
    id: 'signing',
    head: 'Sign a pack, and read it in another shop',
    begins: { at: { screen: 'packs' }, is: label('Packs') },
    steps: [
      say`Once, under ${label('Keys')}: ${label('Name of the shop')}, a passphrase if you want one, ${label('Make the key')}. The passphrase is kept nowhere: without it nobody signs.`,
      say`${label('Sign')} beside the pack, ${label('Sign it')}; then ${label('Write out')}. What is changed in it later is signed anew. ${label('Write out the public key')} gives the file the other shop needs.`,
      say`In the other shop, or over another data folder: ${label('Trust another key…')}, and choose that file. Have the six groups read to you by whoever the key is from, and not out of the message it came with; then ${label('They are the same: trust it')}.`,
      say`Choose the pack. It says by whom it is signed, and that the shop trusts him; ${label('Put it in')}. A pack of which one byte was altered is refused.`,
      say`${label('Withdraw')} ends the trust. What was put in from that key stays.`,
    ],
  },
];

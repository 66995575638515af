import type { HelpSection } from '../help.ts';
import { label, say } from '../said.ts';

/** What the counter finds, and how it comes into the atlas. */
export const fromCounter: readonly HelpSection[] = [
  {
    id: 'claim',
    head: 'Claim a name at the counter and have it judged',
    begins: { at: { screen: 'unit' }, is: label('Unit') },
    steps: [
      say`On ${label('Unit')}, at ${label('Offered as')}: pick the maker and write the name. A new maker or model is offered as soon as its change is made.`,
      say`Enter what is seen slot by slot. The claimed name is marked ruled out, open or standing; ${label('Why not the claimed name')} gives the reasons, or says what is still open.`,
      say`A name that is no name of that maker is said so first, with what each word of it promises and the nearest names that exist.`,
      say`${label('Save')} makes it a case. Judged again after every change of the atlas: ${label('Cases judged once more…')} on ${label('Sheets')} lists those that would be judged otherwise.`,
    ],
  },
  {
    id: 'strange-part',
    head: 'Make a strange part a part of the atlas',
    begins: { at: { screen: 'sheets' }, is: label('Sheets') },
    steps: [
      say`Save the sheet, and press ${label('Case file')} in the bar.`,
      say`Under ${label('Into the atlas')}, at the part’s slot, press ${label('Make it a part…')}. What was only told stays out.`,
      say`Say ${label('What it is called')}, its ${label('Maker')} if it bears one, and ${label('Part numbers, a line each')}. Beside it stands what would be known of it; the case is the source.`,
      say`${label('Make it a part of the atlas')}; the way to its page stands where it was asked. To list it in a model: that model’s page, ${label('Edit')}.`,
    ],
  },
  {
    id: 'samples',
    head: 'Keep what was measured as samples',
    begins: { at: { screen: 'sheets' }, is: label('Sheets') },
    steps: [
      say`In the case file, under ${label('Into the atlas')}, press ${label('Keep as samples…')}. The one part that is left is filled in; or find the part by name or number. ${label('Keep them')}. The atlas is not changed by that.`,
      say`The part’s page then says under ${label('Measured here')}: mean, spread and limits beside what the atlas says, and names what stands apart. ${label('Every sample')} lists them; ${label('Take out')} leaves one out of account.`,
      say`Only ${label('Take as the shop’s word')} puts it in the place of what the atlas says, as a change like any other.`,
    ],
  },
];

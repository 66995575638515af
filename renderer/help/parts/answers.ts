import type { HelpPart } from '../help.ts';
import { label, say } from '../said.ts';

export const answers: HelpPart = {
  id: 'answers',
  head: 'What Kinplate answers',
  lead: say`A turbocharger is ten parts that come apart in minutes, and a housing often fits a stranger’s core: the name cast on it says nothing of what spins inside. You enter what you saw and measured, and every name in the atlas is held against it.`,
  sections: [
    {
      id: 'said',
      head: 'What it says',
      notes: [
        say`Which names are ruled out, which stand, and which are still open; for each the reasons: the fewest entries, joints and rules of the name that cannot all hold.`,
        say`Which check to make next, how many minutes it takes, and when you may stop looking.`,
        say`Which parts to exchange so that a name would stand.`,
        say`The words for the ticket: how the unit may be described, and how it must not be.`,
        say`Of a build on paper: whether its joints go together by their dimensions, what is machined to which size, the hours, and the name it may honestly carry.`,
      ],
    },
    {
      id: 'unsaid',
      head: 'What it never says',
      notes: [
        say`Never “genuine” on looks alone. A pattern part unknown to the atlas cannot be excluded by eye, and the maker’s confirmation of the plate is the last word.`,
        say`Never a guess for a gap. A dimension the atlas lacks is “not known”: it is never taken for zero, nor for a fit.`,
        say`Nothing from what somebody only told: a seller’s words are a claim to test.`,
        say`Not that a unit is safe to run. After any change of a rotating part it needs balancing, and fitting one is work for a qualified workshop.`,
        say`Nothing of real turbochargers as long as the bar says ${label('invented data')}. Where it says ${label('invented figures')}, hours and limits are made up until you put in yours.`,
      ],
    },
    {
      id: 'words',
      head: 'Words it uses',
      notes: [
        say`A ${label('slot')} is a place a part sits in. An entry is one thing ${label('seen')}, ${label('measured')} or ${label('told')} of it.`,
        say`A name is ${label('ruled out')} when no choice of parts agrees with it, ${label('stands')} when all that are left do, and is ${label('open')} when it is not settled. A slot is ${label('doubtful')} when no listed part agrees with its entries and its neighbours.`,
        say`In a slot a part ${label('names the model')} (exchange it and the name is gone; its page says ${label('carries the name')}), is an ${label('option of the catalogue')}, or is a ${label('service part')} that may be replaced freely.`,
        say`A pack is a folder of data that goes into the atlas, and out. A change is anything altered in it, kept with who, when and why, and it can be undone. The shop’s own word goes before what a pack says; the pack itself stays as it is.`,
        say`Words of the trade: ${label('Words')} in the bar lists those on the screen, each with its meaning and a drawing.`,
      ],
    },
  ],
};

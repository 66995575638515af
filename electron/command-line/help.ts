import { exitCodes } from './exit-codes.ts';

export const help = `kinplate: what a turbocharger may honestly be called, from a script.

  kinplate verdict --sheet <file> [--pack <folder> …] [--format text|json] [--name <name>]
      The verdict on one sheet. --sheet - reads it from standard input; --saved <id> takes one the atlas holds.
      --name explains one name instead: its id, or its text.
  kinplate odds --sheet <file> [--format text|json]              what is likely, which entry may be wrong, what to check next
  kinplate report --sheet <file> [--pdf <out.pdf>]               the report for the customer, as a PDF or in words
  kinplate triage <folder|file.csv> [--format text|json|csv]     many sheets, plainest failure of the claim first
  kinplate fit <part> [<part>]                                   all a part fits; two parts at their joints, with works
  kinplate build plan --sheet <file> [--stock <part> …]          a build on paper: the sheet for the bench
  kinplate build fill --sheet <file> [--maker <id>] [--at-most <n>] [--keep <name id>] [--require <feature>=<value> …]
           [--stock <part> …] [--only-stock] [--may-leave nothing|measuring|unknowns] [--limit <n>]
      Every build that fills the open slots and that no other beats in hours, cost, operations and name.
  kinplate compare <model> <model>                               two models side by side, differences first
  kinplate key [--level models|families] [--family <family> …] [--maker <maker>] [--no-letters] [--plate] [--as-far-as <stage>]
      A numbered key that leads to a model or family by what is seen, in as few minutes as it can.
  kinplate quiz [--seed <n>] [--count <n>] [--families <id>,<id> …] [--kinds <kind>,<kind> …] [--format text|json]
      A paper quiz with its key, as Markdown; the same again from the same seed. Kinds: looks, swapped, name, check, descent, grammar.
  kinplate sheets [--pack <folder> …] [--format text|json]      the sheets the atlas holds
  kinplate sheet <id> [--pack <folder> …]                        one of them, as a sheet file
  kinplate cases [--csv] [--text <words>] [--from <day>] [--to <day>] [--status stands|open|"ruled out"|none] [--looked-by <who>]
                                                                 the shop's cases, one a line, or as CSV
  kinplate case <number> [--on <day>] [--format text|json]       one case; its exit code is the claim's, as it was kept
  kinplate pack check <folder> [--format text|json]              every fault of a pack, or the warnings of a sound one; nothing is written
  kinplate pack load <folder> [--data <folder>]                  into the atlas, all of it or nothing
  kinplate pack export <pack id> <folder> [--data <folder>]      a loaded pack back into a folder
  kinplate packs [--data <folder>] [--format text|json]          the packs the atlas holds
  kinplate mend [--data <folder>]                                a new atlas in place of a damaged one: own sheets, cases, and what was learnt recovered
  kinplate schema                                                the JSON Schema of --format json; schema triage, that of a triage

  --pack reads packs into memory for this once and leaves everything else alone. Without it the atlas of the
  data folder is used: --data, else $KINPLATE_DATA, else the user's own data folder.

Exit codes
  ${exitCodes.stands}   the claimed name stands, or no name was claimed; or the command was done
  ${exitCodes.ruledOut}   the claimed (or asked) name is ruled out
  ${exitCodes.open}   the claimed (or asked) name is open
  ${exitCodes.contradiction}   observations contradict each other; nothing was judged
  ${exitCodes.afterWork}   a fit or a build goes together after work; 0, 1 and 2 are: drops in, will not fit, not known
  ${exitCodes.usage}  the command line is wrong                  ${exitCodes.badInput}  a pack or sheet has faults
  ${exitCodes.noInput}  a file, folder or sheet is not there       ${exitCodes.bug}  a bug of kinplate
  ${exitCodes.badAtlas}  the atlas file cannot be used              ${exitCodes.cannotWrite}  something could not be written
  ${exitCodes.tryLater}  the atlas file is in use; try again later   ${exitCodes.stopped} a triage was stopped; what it had is printed
`;

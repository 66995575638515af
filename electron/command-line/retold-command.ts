import { retoldAll } from '../../reasoner/index.ts';
import { KeptAtlas } from '../desk/kept-atlas.ts';
import { casesToRetell, rowsOf } from '../desk/retold.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { toldText } from './judge-cases.ts';
import { dataOption, formatOption } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate cases retold`: what saved cases would be told today, where that differs. Nothing is saved. Asked to stop, it stops where it is. */
export const retoldCommand = command({
  name: 'cases retold',
  options: { ...formatOption, ...dataOption },
  inPlaceOfWords: 'it judges every case',
  help: ['what saved cases would be told today, worst first'],
  run: ({ options: { format, data } }, terminal, { listenForStop = () => () => false }) =>
    withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const kept = new KeptAtlas(store);
      const found = await casesToRetell(store, kept);
      if (!found.ok) return sayTrouble(terminal, found.trouble);
      const run = retoldAll(await kept.now(), found.value.items, found.value.isLeft);
      const stopAsked = listenForStop();
      let step = run.next();
      while (!step.done) {
        await new Promise((turn) => setImmediate(turn));
        step = run.next(stopAsked());
      }
      const list = rowsOf(step.value);
      if (format === 'json') terminal.out(jsonText(list));
      else {
        for (const one of list.cases) {
          terminal.out(
            `${[one.number, one.retold?.weight ?? 'cannot be judged now', one.title].map((cell) => cell.replace(/\s+/g, ' ')).join('\t')}\n`,
          );
          terminal.out(`  was told: ${toldText(one.was)}\n`);
          if (one.retold !== null) terminal.out(`  would be told: ${toldText(one.retold.is)}\n`);
          for (const sentence of one.retold?.why ?? one.faults) terminal.out(`  - ${sentence}\n`);
        }
        terminal.err(
          `· ${list.cases.length} of ${list.judged} cases would be judged otherwise${list.left === 0 ? '' : `; ${list.left} more were left as told`}`,
        );
      }
      return list.complete ? exitCodes.stands : exitCodes.stopped;
    }),
});

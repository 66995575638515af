import { join } from 'node:path';
import { expect, test } from 'vitest';
import { mergeEdits } from '../../../db/changes/merge-edits.ts';
import { renameEdits } from '../../../db/changes/rename-edits.ts';
import type { ChangeMade, Edit } from '../../../db/index.ts';
import type { PartId } from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { filledStore, freshConnection, freshFolder, valueIn } from '../../unit/db/kit.ts';

const who = '';
const wheel = { slot: 'compressor-wheel', name: 'Wheel', maker: null, numbers: [], facts: {}, source: 'shop-book' };

const seeds = Array.from({ length: Number(process.env.KINPLATE_RUNS ?? 2) }, (_, at) => at + 1);

test.each(seeds)(
  '[E1] [H4] whatever is renamed, made one and undone, nothing the shop keeps is lost or written twice; all undone, each stands where it was entered (seed %i)',
  async (seed) => {
    const dice = new Dice(seed);
    const file = join(freshFolder(), 'atlas.sqlite');
    const store = await filledStore({ file });
    const rows = await freshConnection(file);
    const head = async () => valueIn(await store.changes.look([])).head;
    const make = async (edits: readonly Edit[]) =>
      valueIn(await store.changes.make(edits, { who, why: '', source: '', head: await head() }));
    const parts = async () => (await store.atlas.read()).parts.filter(({ name }) => name === wheel.name).map(({ id }) => id);
    /** Each row by what no change alters of it, and the id it stands under. */
    const kept = () =>
      rows.all<{ row: string; under: string }>(
        `select 'sample ' || entry as row, part as under from samples union all
       select 'stock ' || place || ' ' || n, part from stock union all
       select 'price ' || note || coalesce(price, '-'), part from shop_prices union all
       select 'paper ' || title, of from documents order by 1, 2`,
      );
    let n = 0;
    /** Something new of a part; an entry of each sort is told from all others by its number. */
    const enters = async (part: PartId): Promise<void> => {
      n += 1;
      switch (dice.one(['sample', 'line', 'take', 'price', 'no price', 'paper'])) {
        case 'sample':
          return void (await rows.run(
            `insert into samples values ('s${n}', ?, 'compressor-wheel', 'cw-blades', '{"kind":"count","from":9,"to":9}', null, '', 'x', '${n}', '', '2026-03-04T12:00:00.000Z', '', null, '2026-03-04T12:00:00.000Z')`,
            [part],
          ));
        case 'line': {
          const line = { part, words: '', number: '', many: 50, condition: 'new' as const, price: null, place: `L${n}`, note: '' };
          return void valueIn(await store.stock.save(null, line, { who }));
        }
        case 'take': {
          const [line] = valueIn(await store.stock.of([part], ''));
          return void (line === undefined || valueIn(await store.stock.take(line.id, 1, who)));
        }
        case 'price':
          return void valueIn(await store.prices.set(part, { amount: n, money: 'XTS', note: `${n}` }, who));
        case 'no price':
          return void valueIn(await store.prices.set(part, null, who));
        case 'paper': {
          // Some lie beside two parts.
          const title = `${dice.whole(0, 2)}`;
          return void valueIn(
            await store.documents.add({ kind: 'part', id: part }, { name: 'x.txt', title, bytes: Buffer.from(title) }, who),
          );
        }
      }
    };
    await make(['a', 'b', 'c', 'd'].map((id) => ({ list: 'parts', put: { ...wheel, id: `own-${id}` } })));
    for (let times = 0; times < 24; times += 1) await enters(dice.one(await parts()));
    const entered = await kept();
    const prices = () => rows.all('select part, n, note from shop_prices order by part, n');
    const asked = await prices();
    const names = (of: readonly { readonly row: string }[]) => of.map(({ row }) => row).sort();

    const made: ChangeMade[] = [];
    for (let step = 1; step <= 6; step += 1) {
      const there = await parts();
      const atlas = await store.atlas.read();
      // Under some of these a price or a paper stayed.
      const free = ['a', 'b', 'c', 'd'].map((id) => `own-${id}`).filter((id) => !there.some((part) => part === id));
      const from = dice.one(there);
      const into = dice.one(there.filter((id) => id !== from).concat(there.length > 1 ? [] : [from]));
      const edits =
        into === from || dice.often(50)
          ? renameEdits(atlas, 'parts', from, free.length > 0 && dice.often(60) ? dice.one(free) : `own-${step}-anew`)
          : mergeEdits(atlas, 'parts', from, into).edits;
      const change = await make(edits);
      expect(names(await kept())).toEqual(names(entered));
      // One is undone at once, and that too.
      if (dice.often(33)) {
        const before = await kept();
        const undone = valueIn(await store.changes.undo(change.change as number, false, { who, why: '', head: await head() }));
        expect(names(await kept())).toEqual(names(entered));
        const again = valueIn(await store.changes.undo(undone.change as number, false, { who, why: '', head: await head() }));
        expect(await kept()).toEqual(before);
        made.push(again);
      } else made.push(change);
    }
    for (const { change } of made.reverse()) {
      valueIn(await store.changes.undo(change as number, false, { who, why: '', head: await head() }));
      expect(names(await kept())).toEqual(names(entered));
    }
    expect(await kept()).toEqual(entered);
    expect(await prices()).toEqual(asked);
    expect((await parts()).map(String).sort()).toEqual(['own-a', 'own-b', 'own-c', 'own-d']);
  },
);

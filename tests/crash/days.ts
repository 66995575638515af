import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chosenBackup } from '../../db/backups/restore.ts';
import { Connection } from '../../db/driver/connection.ts';
import { openStore, type Store } from '../../db/index.ts';
import { expandCode, smallPack } from '../unit/db/packs.ts';
import { start } from './child.ts';

/** One thing done with the atlas. */
export type Act =
  | { readonly what: 'save'; readonly id: string; readonly title: string }
  | { readonly what: 'describe'; readonly id: string; readonly customer: string }
  | { readonly what: 'photo'; readonly id: string; readonly photo: string; readonly size: number; readonly mark: number }
  | { readonly what: 'remove'; readonly id: string }
  | { readonly what: 'backup' }
  | { readonly what: 'restore'; readonly name: string }
  | { readonly what: 'pack'; readonly newer: boolean };

/** What a child says of it. `name`: of the backup that was made. `number`: of the case. */
export type Said =
  | { readonly n: number; readonly begins: Act }
  | { readonly n: number; readonly done: Act | 'opened'; readonly name?: string; readonly number?: string };

/** What a child is given to go on from. */
export interface Task {
  readonly seed: number;
  readonly backups: readonly string[];
  readonly sheets: readonly string[];
  readonly newer: boolean;
  readonly packs: { readonly older: string; readonly newer: string };
  readonly editions: { readonly older: string; readonly newer: string };
}

interface Kept {
  readonly title: string;
  readonly customer: string;
  readonly photos: readonly string[];
}

/** What the atlas holds, as far as it was said. */
interface Shop {
  readonly newer: boolean;
  readonly sheets: ReadonlyMap<string, Kept>;
}

export interface Counts {
  kills: number;
  /** What was under way when it was killed; `nothing` between two things. */
  readonly during: Record<string, number>;
  /** Things that were said to be done, and were looked for. */
  acknowledged: number;
  /** Begun and not said to be done: found done, found undone. */
  readonly unsaid: { done: number; undone: number };
  backups: number;
  readonly lost: string[];
}

export const noCounts = (): Counts => ({ kills: 0, during: {}, acknowledged: 0, unsaid: { done: 0, undone: 0 }, backups: 0, lost: [] });

const editions = { older: '2026-03-02', newer: '2026-04-01' } as const;

/** A newer edition of the small pack, told from the older by a part's name. */
const newerPack = (folder: string): string => {
  const pack = join(folder, 'newer');
  cpSync(smallPack, pack, { recursive: true });
  for (const [file, from, to] of [
    ['pack.json', editions.older, editions.newer],
    ['parts.csv', 'journal set', 'newer journal set'],
  ] as const)
    writeFileSync(join(pack, file), readFileSync(join(pack, file), 'utf8').replace(from, to));
  return pack;
};

const after = (shop: Shop, act: Act, snapshots: ReadonlyMap<string, Shop>): Shop => {
  const changed = (id: string, how: (kept: Kept) => Kept): Shop => {
    const kept = shop.sheets.get(id);
    return kept === undefined ? shop : { ...shop, sheets: new Map(shop.sheets).set(id, how(kept)) };
  };
  switch (act.what) {
    case 'save': {
      const { customer = '', photos = [] } = shop.sheets.get(act.id) ?? {};
      return { ...shop, sheets: new Map(shop.sheets).set(act.id, { title: act.title, customer, photos }) };
    }
    case 'describe':
      return changed(act.id, (kept) => ({ ...kept, customer: act.customer }));
    case 'photo':
      return changed(act.id, (kept) => ({ ...kept, photos: [...kept.photos, act.photo].sort() }));
    case 'remove':
      return { ...shop, sheets: new Map([...shop.sheets].filter(([id]) => id !== act.id)) };
    case 'backup':
      return shop;
    case 'restore':
      return snapshots.get(act.name) as Shop;
    case 'pack':
      return { ...shop, newer: act.newer };
  }
};

const textOf = ({ newer, sheets }: Shop): string => JSON.stringify([newer, [...sheets].sort(([a], [b]) => (a < b ? -1 : 1))]);

const readShop = async (store: Store): Promise<Shop> => {
  const listed = await store.sheets.list();
  if (!listed.ok) throw new Error(listed.trouble.sentence);
  const sheets = new Map<string, Kept>();
  for (const { id, title, origin } of listed.value) {
    if (origin !== 'own') continue;
    const opened = await store.cases.open(id, null);
    if (!opened.ok) throw new Error(opened.trouble.sentence);
    const { customer, photos } = opened.value;
    sheets.set(id, { title, customer, photos: photos.map(({ caption }) => caption).sort() });
    for (const photo of photos) {
      const bytes = await store.photos.bytes(photo.id, 'whole');
      if (!bytes.ok) throw new Error(bytes.trouble.sentence);
    }
  }
  const packs = await store.packs.list();
  if (!packs.ok) throw new Error(packs.trouble.sentence);
  const newer = packs.value[0]?.edition === editions.newer;
  const atlas = await store.atlas.read();
  if (atlas.parts.some(({ name }) => name.startsWith('newer ')) !== newer)
    throw new Error('the atlas is neither the one edition nor the other');
  return { newer, sheets };
};

/**
 * The life of one atlas: children work in it, one after the other, each killed at a moment drawn by the seed; after each kill the atlas is opened as the program opens it, and what was said to be done
 * must be there, whole, no more and no less than what was under way may have added. Gives what could not be found, in words.
 * @param program the built `shop-days`
 */
export const shopDays = async (program: string, seed: number, kills: number, counts: Counts): Promise<void> => {
  const folder = mkdtempSync(join(tmpdir(), 'kinplate-days-'));
  try {
    mkdirSync(join(folder, 'packs'));
    const packs = { older: smallPack, newer: newerPack(join(folder, 'packs')) };
    const file = join(folder, 'atlas.sqlite');
    const place = { file, folder: join(folder, 'backups'), atMost: 2 ** 40, now: () => new Date() };
    const open = async (): Promise<Store> => {
      const opened = await openStore(file, { expandCode, backups: place });
      if (!opened.ok) throw new Error(`it does not open: ${opened.trouble.sentence}`);
      return opened.value;
    };
    const first = await open();
    await first.packs.load(smallPack);
    await first.close();

    let shop: Shop = { newer: false, sheets: new Map() };
    const snapshots = new Map<string, Shop>();
    const numbers = new Map<string, string>();
    const looked = new Set<string>();
    const dice = diceOf(seed);
    for (let kill = 0; kill < kills; kill += 1) {
      const where = `seed ${seed}, kill ${kill}`;
      const lost = (what: string): void => void counts.lost.push(`${where}: ${what}`);
      const task: Task = {
        seed: seed * 1000 + kill,
        backups: [...snapshots.keys()],
        sheets: [...shop.sheets.keys()],
        newer: shop.newer,
        packs,
        editions,
      };
      const taskFile = join(folder, 'task.json');
      writeFileSync(taskFile, JSON.stringify(task));
      const child = start(program, [file, taskFile]);
      const at = await killedIn(child, dice);
      if (at !== null) lost(at);
      counts.kills += 1;

      let under: Act | null = null;
      let before: Shop = shop;
      for (const said of saidBy(child.lines)) {
        if ('begins' in said) {
          under = said.begins;
          before = shop;
          continue;
        }
        if (said.done === 'opened') continue;
        under = null;
        counts.acknowledged += 1;
        shop = after(shop, said.done, snapshots);
        if (said.name !== undefined) snapshots.set(said.name, before);
        if (said.number !== undefined && said.done.what === 'save') {
          const holder = numbers.get(said.number);
          if (holder !== undefined && holder !== said.done.id)
            lost(`the number ${said.number} of ${holder} was given again, to ${said.done.id}`);
          numbers.set(said.number, said.done.id);
        }
      }
      const during = under?.what ?? 'nothing';
      counts.during[during] = (counts.during[during] ?? 0) + 1;

      try {
        const store = await open();
        try {
          const found = await readShop(store);
          const might = under === null ? shop : after(shop, under, snapshots);
          if (textOf(found) === textOf(shop)) {
            if (under !== null && textOf(might) !== textOf(shop)) counts.unsaid.undone += 1;
          } else if (textOf(found) === textOf(might)) counts.unsaid.done += 1;
          else lost(`after ${JSON.stringify(under)} it holds ${textOf(found)} and not ${textOf(shop)}`);
          shop = found;
          for (const [name, held] of snapshots) {
            // Looked through once, and all of them again at the end.
            if (kill < kills - 1 && looked.has(name)) continue;
            looked.add(name);
            const chosen = await chosenBackup(place, name, false).catch((error: Error) => error.message);
            if (typeof chosen === 'string') lost(`the backup ${name}: ${chosen}`);
            else if (chosen.state.kind === 'sound' && chosen.state.counts.sheets !== held.sheets.size)
              lost(`the backup ${name} holds ${chosen.state.counts.sheets} sheets of ${held.sheets.size}`);
          }
          const listed = await store.backups.list();
          if (!listed.ok) throw new Error(listed.trouble.sentence);
          for (const { name, state } of listed.value.backups)
            if (state.kind !== 'sound') lost(`the backup ${name} is listed and cannot be read: ${state.why}`);
          // The next backup clears what this kill left half-made.
          if (kill === kills - 1) await store.backups.make('asked');
        } finally {
          await store.close();
        }
        await expectSound(file);
      } catch (error) {
        lost(error instanceof Error ? error.message : String(error));
        return;
      }
    }
    counts.backups += snapshots.size;
    for (const name of [...readdirSync(folder), ...readdirSync(place.folder)])
      if (/\.part(-|$)/.test(name)) counts.lost.push(`seed ${seed}: ${name} was left behind`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const expectSound = async (file: string): Promise<void> => {
  const connection = await Connection.open(file, { mode: 'read', busyMs: 1000 });
  try {
    const [pages] = await connection.all<{ integrity_check: string }>('pragma integrity_check');
    if (pages?.integrity_check !== 'ok') throw new Error(`the file is not sound: ${pages?.integrity_check}`);
    const dangling = await connection.all('pragma foreign_key_check');
    if (dangling.length > 0) throw new Error('rows refer to what is not there');
  } finally {
    await connection.close();
  }
};

/** The last line may have been cut by the kill. */
const saidBy = (lines: readonly string[]): readonly Said[] =>
  lines.flatMap((line): Said[] => {
    try {
      return [JSON.parse(line) as Said];
    } catch {
      return [];
    }
  });

/** Waits until a moment drawn by the dice, and kills; a child that ended by itself is told in words. */
const killedIn = async (child: ReturnType<typeof start>, dice: () => number): Promise<string | null> => {
  const wanted = ['', '', 'backup', 'restore', 'restore', 'pack', 'photo', 'save'][Math.floor(dice() * 8)];
  const things = 2 + Math.floor(dice() * 12);
  // So long a restore or a pack takes here, backup and all, and a little more.
  const delay = dice() * (wanted === 'restore' || wanted === 'pack' ? 350 : 60);
  let ended = false;
  const end = child.ended.then((how) => {
    ended = true;
    return how;
  });
  /** So many things are done, and, where a kind is wanted, one of them is under way; no more than thirty are waited for. */
  const isTime = (): boolean => {
    const said = child.lines.filter((line) => line.includes('"begins"'));
    const last = child.lines.at(-1) ?? '';
    return (
      said.length >= 30 || (said.length >= things && (wanted === '' || (last.includes('"begins"') && last.includes(`"what":"${wanted}"`))))
    );
  };
  while (!ended && !isTime()) await new Promise((resolve) => setTimeout(resolve, 1));
  await new Promise((resolve) => setTimeout(resolve, delay));
  child.child.kill('SIGKILL');
  const { code, signal } = await end;
  return signal === 'SIGKILL' ? null : `the program ended by itself (${code ?? signal}) after ${child.lines.at(-1)}`;
};

/** Numbers from 0 to 1, the same from the same seed. */
const diceOf = (seed: number): (() => number) => {
  let state = (seed * 2_654_435_761) >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
};

import { copyFileSync, mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { CourseId, LearnerId, Outcome, PhotoId, Store } from '../../db/index.ts';
import { openStore } from '../../db/index.ts';
import { scheduled } from '../../electron/desk/drill-schedule.ts';
import { openAtlas } from '../../electron/desk/open-house.ts';
import { asId, type PartId, type Sheet, type SheetId, type TopicId } from '../../reasoner/index.ts';
import { keepSheet } from '../unit/db/keep-sheet.ts';
import { expandCode, smallPack } from '../unit/db/packs.ts';
import { jpeg, png } from '../unit/db/photos/pictures.ts';

const valueIn = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.trouble.sentence);
  return outcome.value;
};

/** The folder whose packs are taken for those that come with the program. */
export const shipped = dirname(smallPack);

/** A picture of its own for every number, and as long as asked. */
export const pictureOf = (n: number, bytes = 9000): Buffer =>
  Buffer.concat([
    jpeg.subarray(0, jpeg.length - 2),
    Buffer.alloc(bytes, 1 + (n % 200)),
    Buffer.from([n >> 8, n & 0x7f]),
    jpeg.subarray(-2),
  ]);

export interface Shop {
  readonly folder: string;
  readonly file: string;
  /** By sheet, the photograph its case shows. */
  readonly photos: ReadonlyMap<string, PhotoId>;
}

export const sheetNumber = (n: number): SheetId => asId<SheetId>(`own-${String(n).padStart(3, '0')}`);

/** Fills the atlas of a data folder: own sheets saved up to three times, words beside them, photographs, and what two people learnt. */
export const fillShop = async (
  folder: string,
  {
    sheets,
    photos,
    photoBytes = 9000,
    story = 900,
    topics = 20,
  }: { readonly sheets: number; readonly photos: number; readonly photoBytes?: number; readonly story?: number; readonly topics?: number },
): Promise<Shop> => {
  const file = join(folder, 'atlas.sqlite');
  let now = new Date('2026-02-01T08:00:00.000Z').getTime();
  const opened = valueIn(await openAtlas(file));
  valueIn(await opened.packs.load(smallPack));
  await opened.close();
  const tick = (): Date => {
    now += 61_000;
    return new Date(now);
  };
  const store = valueIn(await openStore(file, { now: tick, expandCode }));
  const sample = valueIn(await store.sheets.open(asId<SheetId>('found-01')));
  const held = new Map<string, PhotoId>();
  for (let n = 0; n < sheets; n += 1) {
    const sheet: Sheet = { ...sample, id: sheetNumber(n), title: `Unit ${n}`, story: `${n} ${'as it came in. '.repeat(story / 15)}` };
    valueIn(await keepSheet(store, sheet, 'Osk'));
    if (n % 2 === 0) valueIn(await keepSheet(store, { ...sheet, title: `Unit ${n}, cleaned` }, 'Wenna'));
    if (n % 3 === 0)
      valueIn(
        await store.cases.describe(sheet.id, { customer: `Customer ${n}`, lookedBy: 'Osk', notes: 'Oil at the seal. '.repeat(n % 40) }),
      );
    if (n < photos) {
      const bytes = pictureOf(n, photoBytes);
      const [added] = valueIn(
        await store.photos.add(sheet.id, { name: `${n}.jpg`, bytes, thumbnail: png, caption: `nose ${n}`, about: null }),
      );
      held.set(sheet.id, added?.id as PhotoId);
    }
  }
  await keepRoom(store, sheets);
  await keepSamples(store);
  await sayOtherwise(store);
  await learnIn(store, topics, () => {
    now += 3_600_000;
  });
  await store.close();
  return { folder, file, photos: held };
};

/** The shop says otherwise than the pack of two of its parts. Nothing stands in a pack of its own, which is a pack like any other. */
const sayOtherwise = async (store: Store): Promise<void> => {
  const { parts } = await store.atlas.read();
  const edits = ['cw-tern-4', 'cw-tern-9'].map((id, n) => {
    const part = parts.find((each) => each.id === id);
    return {
      list: 'parts',
      put: {
        ...part,
        name: `${part?.name}, as we call it`,
        facts: { ...part?.facts, 'cw-blades': { kind: 'count', from: 9 + n, to: 9 + n } },
      },
    };
  });
  const { head } = valueIn(await store.changes.look([]));
  valueIn(await store.changes.make(edits, { who: 'Wenna', why: '', source: '', head }));
};

/** Two ways of reading a table, what the shop says of itself, and as many lines of stock as it has sheets, every other of them in two states. */
const keepRoom = async ({ settings, stock, prices, documents, templates }: Store, lines: number): Promise<void> => {
  for (const name of ['the stock list', 'the wheels'])
    valueIn(
      await templates.keep({
        name,
        headings: ['Part No', 'Remark'],
        matching: { kind: 'parts', sheet: null, headings: 1, columns: [{ is: 'numbers' }, { is: 'ignored' }], slot: null, maker: 'none' },
      }),
    );
  valueIn(await settings.save('letterhead', { name: 'Saltmarsh Rotor & Fuel', lines: ['Port Hallow'], logo: null }, 'Wenna'));
  valueIn(await settings.setLogo({ name: 'sign.png', bytes: png }, 'Wenna'));
  valueIn(await settings.save('people', { names: ['Osk', 'Wenna'] }, 'Wenna'));
  for (const [n, part] of ['ch-tern', 'cw-tern-4', 'bh-tern'].entries())
    for (const amount of [n + 1, n + 2.5]) valueIn(await prices.set(asId<PartId>(part), { amount, money: 'XTS', note: '' }, 'Osk'));
  for (const [n, part] of ['ch-tern', 'bh-tern'].entries()) {
    const letter = { name: 'letter.txt', title: 'a letter', bytes: Buffer.from('Dear Osk. '.repeat(600 + n)) };
    valueIn(await documents.add({ kind: 'part', id: asId<PartId>(part) }, letter, 'Osk'));
  }
  for (let n = 0; n < lines; n += 1) {
    const { id } = valueIn(
      await stock.save(
        null,
        {
          part: null,
          words: `Part ${n}`,
          number: '',
          many: n + 1,
          condition: 'new',
          price: n % 3 === 0 ? null : { amount: n + 0.5, money: 'XTS' },
          place: `Rack ${n % 7}`,
          note: 'as it came in. '.repeat(n % 20),
        },
        { who: 'Osk' },
      ),
    );
    if (n % 2 === 0) valueIn(await stock.take(id, 1, 'Wenna'));
  }
};

/** What was seen of a wheel in every case, as samples of the first wheel the atlas has. */
const keepSamples = async ({ samples, sheets, atlas }: Store): Promise<void> => {
  const { parts } = await atlas.read();
  for (const { id, origin } of valueIn(await sheets.list())) {
    if (origin !== 'own') continue;
    const { sheet, version } = valueIn(await sheets.opened(id));
    const seen = sheet.observations.find(({ value, slot }) => value.kind !== 'measure' && parts.some((part) => part.slot === slot));
    const part = parts.find(({ slot }) => slot === seen?.slot);
    if (seen === undefined || part === undefined) continue;
    const kept = [{ feature: seen.feature, value: seen.value, u: null, how: '', sheet: id, entry: seen.id }];
    valueIn(await samples.keep({ part: part.id, slot: part.slot, sheet: id, version, samples: kept }, 'Wenna'));
  }
};

export const learners = ['wenna', 'osk'].map((id) => asId<LearnerId>(id));

const learnIn = async (store: Store, topics: number, wait: () => void): Promise<void> => {
  const course = asId<CourseId>('first-week');
  valueIn(await store.learning.saveCourse({ id: course, name: 'First week', families: null, kinds: ['looks'], newPerDay: 4 }));
  for (const [index, id] of learners.entries()) {
    valueIn(await store.learning.saveLearner({ id, name: `Learner ${id}`, course: index === 0 ? course : null }));
    for (let n = 0; n < topics; n += 1) {
      wait();
      const right = n % 3 > 0;
      const answer = {
        topic: asId<TopicId>(`looks:petrel+skua-${n}`),
        seed: 1,
        edition: `small ${'x'.repeat(200)}`,
        response: [`choice-${n}`],
        right,
        confused: null,
      };
      valueIn(await store.learning.keepAnswer(id, answer, (card, at) => scheduled(card, right, at)));
    }
  }
};

/** A copy of a data folder's atlas in another, as a backup of that folder where a name for one is given. */
export const copyOf = (shop: Shop, folder: string, backup: string | null = null): string => {
  const to = backup === null ? join(folder, 'atlas.sqlite') : join(folder, 'backups', backup);
  mkdirSync(dirname(to), { recursive: true });
  copyFileSync(shop.file, to);
  return to;
};

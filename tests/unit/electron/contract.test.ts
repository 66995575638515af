import { createHash } from 'node:crypto';
import { copyFile, mkdir, mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { mostPhotoBytes, openStore, type PublicKey, type Store, type Version, versionOf } from '../../../db/index.ts';
import { fingerprintOf } from '../../../db/signing/public-key.ts';
import type { SearchState } from '../../../electron/bridge/build-calls.ts';
import { type CallArgs, type CallName, type CallResult, contract, type Reply } from '../../../electron/bridge/contract.ts';
import type { ListingsState } from '../../../electron/bridge/listings-calls.ts';
import { openDesk } from '../../../electron/desk/open-desk.ts';
import { expandForPacks } from '../../../electron/desk/open-house.ts';
import { openStaff, type Staff } from '../../../electron/desk/staff/staff.ts';
import { asId, type FeatureId, type NameId, type PartId, type Sheet, type SheetId, type SlotId } from '../../../reasoner/index.ts';
import { limits } from '../../../reasoner/plain/limits.ts';
import { keepSheet } from '../db/keep-sheet.ts';
import { jpeg, png } from '../db/photos/pictures.ts';
import { putBack } from '../db/put-back.ts';
import { builtWorker } from './built-worker.ts';
import { staffOf } from './staff-of.ts';
import { type Transport, transports } from './transports.ts';

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');

/** A unit on the counter: a nameless wheel under a known name. The small pack's own sample, told anew. */
const sheet: Sheet = {
  id: asId<SheetId>('counter-01'),
  title: 'A Petrel for a low price',
  story: 'Brought in by the harbour pilot.',
  kind: 'found',
  claimed: 'Petrel 13 Cartridge',
  claimedMaker: asId('merrowby'),
  observations: [
    {
      id: asId('o1'),
      slot: asId('compressor-wheel'),
      feature: asId('cw-blades'),
      value: { kind: 'count', from: 7, to: 7 },
      sure: { kind: 'seen' },
    },
    {
      id: asId('o2'),
      slot: asId('bearing-housing'),
      feature: asId('bh-letters'),
      value: { kind: 'mark', text: null },
      sure: { kind: 'seen' },
    },
  ],
  absent: [],
  chosen: {},
};

/** Of RFC 8032, 7.1, TEST 1. */
const publicKeyText = `kinplate public key, version 1
name: Tern Works
key: 11qYAYKxCrfVS/7TyWQHOg7hcvPapiMlrwIaaPcHURo=
fingerprint: ${fingerprintOf('11qYAYKxCrfVS/7TyWQHOg7hcvPapiMlrwIaaPcHURo=' as PublicKey)}
`;

/** A stranger's housing on a Tern core, on paper. */
const build: Sheet = {
  id: asId<SheetId>('build-01'),
  title: 'A Rowan housing on a Tern core',
  story: '',
  kind: 'planned',
  claimed: null,
  claimedMaker: null,
  observations: [],
  absent: [],
  chosen: { [asId<SlotId>('compressor-housing')]: asId<PartId>('ch-rowan'), [asId<SlotId>('bearing-housing')]: asId<PartId>('bh-tern') },
};
const saidOfIt = {
  by: 'shop',
  person: 'Ines',
  day: '2026-03-04',
  decision: 'Sold as a rebuilt unit.',
  ground: 'measured on the bench',
} as const;
const noSuchPart = { ...build, chosen: { [asId<SlotId>('compressor-housing')]: asId<PartId>('ch-heron') } };

/** Well-formed, and of nothing. */
const none = '0'.repeat(64);
/** Of a case nobody wrote on yet. */
const noWords = versionOf({ customer: '', lookedBy: '', notes: '' });

interface Example<C extends CallName> {
  readonly asks: CallArgs<C>;
  readonly gives: (value: CallResult<C>) => void;
  /** What has to be asked before, where the answer to it is part of the asking: a search's token. */
  readonly askedAfter?: (asks: CallArgs<C>, ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>) => Promise<CallArgs<C>>;
  /** The same call about something that is not there, and the code of the trouble it gets; null where there is nothing it could miss. */
  readonly misses: readonly [CallArgs<C>, string] | null;
}

/** The token of a search just begun. */
const ofSearch = async (_asks: unknown, ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>): Promise<{ token: string }> => {
  const begun = await ask('build.complete', { sheet: build, constraints: {} });
  if (!begun.ok) throw new Error(begun.trouble.sentence);
  return begun.value as CallResult<'build.complete'>;
};

/** The same question about a photograph that is there. */
const ofPhoto = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { photo: string }> => {
  const { data, thumbnail } = { data: jpeg.toString('base64'), thumbnail: png.toString('base64') };
  const added = await ask('photos.add', { sheet: 'counter-02', name: 'wheel.jpg', data, thumbnail, caption: '', about: null });
  if (!added.ok) throw new Error(added.trouble.sentence);
  return { ...asks, photo: (added.value as CallResult<'photos.add'>)[0]?.id ?? '' };
};

/** The same question about a photograph as it was read: what changes it says so. */
const ofSaidPhoto = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { photo: string; madeAgainst: string }> => ({
  ...(await ofPhoto(asks, ask)),
  madeAgainst: versionOf({ caption: '', about: null }),
});

/** The same question about somebody who has just begun to learn. */
const ofLearner = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { learner: string }> => {
  const saved = await ask('drills.saveLearner', { name: 'Jory', course: null });
  if (!saved.ok) throw new Error(saved.trouble.sentence);
  return { ...asks, learner: (saved.value as CallResult<'drills.saveLearner'>).id };
};

const ownPart = {
  list: 'parts',
  put: { id: 'own-wheel', slot: 'compressor-wheel', name: 'Our wheel', maker: null, numbers: [], facts: {}, source: 'shop-book' },
};

/** A maker nobody has saved. */
const newMaker = {
  id: 'new',
  name: 'Heronry',
  tradeNames: [],
  plateRule: true,
  grammar: {
    tokens: [
      { id: 'bird', name: 'family', before: '', optional: false, reads: { kind: 'word', words: ['Heron'] }, promises: [] },
      { id: 'size', name: 'size', before: ' ', optional: false, reads: { kind: 'whole number', from: 1, to: 20 }, promises: [] },
    ],
    demands: [],
  },
  source: 'shop-book',
};

/** The same, made of the atlas as it stands. */
const ofHead = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { head: string }> => {
  const seen = await ask('changes.look', { edits: [ownPart] });
  if (!seen.ok) throw new Error(seen.trouble.sentence);
  return { ...asks, head: (seen.value as CallResult<'changes.look'>).head };
};

/** The token of cases being judged again. */
const ofRetelling = async (
  _asks: unknown,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<{ token: string }> => {
  const begun = await ask('changes.retell', { of: { edits: [ownPart] } });
  if (!begun.ok) throw new Error(begun.trouble.sentence);
  return begun.value as CallResult<'changes.retell'>;
};

/** The same about a change just made. */
const ofChange = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { change: number; head: string }> => {
  const made = await ask('changes.make', await ofHead({ edits: [ownPart], who: '', why: '', source: '' }, ask));
  if (!made.ok) throw new Error(made.trouble.sentence);
  const { change, head } = made.value as CallResult<'changes.make'>;
  return { ...asks, change: change ?? 0, head };
};
/** A line of stock in words, and the same question about it once it is on the list. */
const onTheShelf: CallArgs<'stock.save'>['line'] = {
  part: null,
  words: 'Compressor housing, no letters',
  number: 'OAR 7',
  many: 2,
  condition: 'used, to be worked on',
  price: { amount: 12.5, money: 'XTS' },
  place: 'Rack 3',
  note: '',
};
const ofStock = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { line: string }> => {
  const saved = await ask('stock.save', { line: onTheShelf, who: 'Ines', madeAgainst: null });
  if (!saved.ok) throw new Error(saved.trouble.sentence);
  return { ...asks, line: (saved.value as CallResult<'stock.save'>).id };
};
/** The same once something is asked for it. */
const ofPrice = async <Asks extends { part: string }>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks> => {
  const price = { amount: 15, money: 'XTS' };
  const set = await ask('prices.set', { part: asks.part, price, who: 'Ines', madeAgainst: null });
  if (!set.ok) throw new Error(set.trouble.sentence);
  return asks;
};
/** The same about a case as it is saved, and about a sample that was kept of it. */
const ofCase = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { version: Version }> => {
  const opened = await ask('sheets.open', { id: 'counter-02' });
  if (!opened.ok) throw new Error(opened.trouble.sentence);
  return { ...asks, version: (opened.value as CallResult<'sheets.open'>).version };
};
const ofSample = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { sample: string }> => {
  const kept = await ask('samples.keep', await ofCase({ ...wheelOfCase, part: 'cw-quay-13', who: 'Ines' }, ask));
  if (!kept.ok) throw new Error(kept.trouble.sentence);
  const samples = await ask('samples.of', { part: 'cw-quay-13' });
  if (!samples.ok) throw new Error(samples.trouble.sentence);
  return { ...asks, sample: (samples.value as CallResult<'samples.of'>).samples.find(({ out }) => out === null)?.id ?? '' };
};
const wheelOfCase = { sheet: 'counter-02', slot: 'compressor-wheel' };
/** A letter beside a part, and the same question about it once it is kept. */
const letter = {
  about: { kind: 'part', id: 'bh-tern' },
  name: 'letter.txt',
  title: 'a letter',
  data: Buffer.from('Dear keepers').toString('base64'),
} as const;
const ofLetter = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { file: string }> => {
  const added = await ask('documents.add', letter);
  if (!added.ok) throw new Error(added.trouble.sentence);
  return { ...asks, file: (added.value as CallResult<'documents.add'>)[0]?.file ?? '' };
};
/** A table of one line, told in words. */
const stockTable = { text: 'what,how many\r\nHeat shield,4\r\n', file: 'stock.csv' };

/** The token of a judging just begun. */
const ofListings = async (_asks: unknown, ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>): Promise<{ token: string }> => {
  const begun = await ask('listings.start', {
    files: [{ name: 'counter-01.json', text: JSON.stringify(sheet) }],
    tables: [],
    shelf: false,
  });
  if (!begun.ok) throw new Error(begun.trouble.sentence);
  return begun.value as CallResult<'listings.start'>;
};

/** The same, once it is done. */
const doneListings: typeof ofListings = async (asks, ask) => {
  const begun = await ofListings(asks, ask);
  let reply = await ask('listings.progress', begun);
  while (reply.ok && (reply.value as ListingsState).state === 'running') {
    await new Promise(setImmediate);
    reply = await ask('listings.progress', begun);
  }
  return begun;
};

/** The token of all cases being judged. */
const ofRetold = async (_asks: unknown, ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>): Promise<{ token: string }> => {
  const begun = await ask('retold.start', {});
  if (!begun.ok) throw new Error(begun.trouble.sentence);
  return begun.value as CallResult<'retold.start'>;
};

const noToken = '3f0c0e7e-0000-4000-8000-000000000000';

/** The token of a case just made into a file, or of one just handed in. */
const ofParcel = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { token: string }> => {
  const made = await ask('parcel.write', { sheet: 'counter-02' });
  if (!made.ok) throw new Error(made.trouble.sentence);
  return { ...asks, token: (made.value as CallResult<'parcel.write'>).token };
};
const ofHandedIn = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { token: string }> => {
  const part = await ask('parcel.part', { ...(await ofParcel({}, ask)), part: 0 });
  if (!part.ok) throw new Error(part.trouble.sentence);
  const { data } = part.value as CallResult<'parcel.part'>;
  const handed = await ask('parcel.handIn', { token: null, name: 'case.zip', data });
  if (!handed.ok) throw new Error(handed.trouble.sentence);
  return { ...asks, token: (handed.value as CallResult<'parcel.handIn'>).token };
};

/** The small pack as it is held, and the same handed in as one file. */
const ofHeldPack = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { id: string; madeAgainst: Version }> => {
  const held = await ask('packs.held', {});
  if (!held.ok) throw new Error(held.trouble.sentence);
  const [small] = (held.value as CallResult<'packs.held'>).held;
  if (small === undefined) throw new Error('no pack is held');
  return { ...asks, id: small.id, madeAgainst: small.version };
};
const ofWrittenPack = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { token: string }> => {
  const made = await ask('packs.write', { id: 'small' });
  if (!made.ok) throw new Error(made.trouble.sentence);
  return { ...asks, token: (made.value as CallResult<'packs.write'>).token };
};
const ofBroughtPack = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { token: string }> => {
  const part = await ask('packs.part', { ...(await ofWrittenPack({}, ask)), part: 0 });
  if (!part.ok) throw new Error(part.trouble.sentence);
  const handed = await ask('packs.handIn', { token: null, path: 'small.zip', data: (part.value as CallResult<'packs.part'>).data });
  if (!handed.ok) throw new Error(handed.trouble.sentence);
  return { ...asks, token: (handed.value as CallResult<'packs.handIn'>).token };
};
/** The token of a table just handed in. */
const ofTable = async <Asks extends object>(
  asks: Asks,
  ask: (name: CallName, args: unknown) => Promise<Reply<CallName>>,
): Promise<Asks & { token: string }> => {
  const data = Buffer.from('number,slot,maker,bore\nGUST 1,compressor wheel,none,6\n').toString('base64');
  const handed = await ask('table.handIn', { token: null, name: 'list.csv', data });
  if (!handed.ok) throw new Error(handed.trouble.sentence);
  return { ...asks, token: (handed.value as CallResult<'table.handIn'>).token };
};
const matching: CallArgs<'table.keep'>['matching'] = {
  kind: 'parts',
  sheet: null,
  headings: 1,
  columns: [{ is: 'numbers' }, { is: 'slot' }, { is: 'maker' }, { is: 'ignored' }],
  slot: null,
  maker: null,
};
const mended = { cells: {}, confirmed: [], left: [], makers: [] };

/** One example for every call of the contract. A new call does not compile until it has one here. */
const examples: { readonly [C in CallName]: Example<C> } = {
  'changes.look': {
    asks: { edits: [ownPart] },
    gives: ({ cells, faults }) => {
      expect(faults).toEqual([]);
      expect(cells).toContainEqual(expect.objectContaining({ own: true, list: 'parts', id: 'own-wheel', field: 'name' }));
    },
    misses: null,
  },
  'changes.make': {
    asks: { edits: [ownPart], who: 'Ines', why: '', source: '', head: '' },
    askedAfter: ofHead,
    gives: ({ change, counts }) => {
      expect(change).not.toBeNull();
      expect(counts).toContainEqual({ of: 'parts', added: 1, altered: 0, removed: 0 });
    },
    misses: [{ edits: [{ list: 'parts', drop: 'no-such' }], who: '', why: '', source: '', head: '' }, 'edit-invalid'],
  },
  'changes.list': {
    asks: { before: null, limit: 10, of: null },
    gives: (entries) => expect(entries.map(({ kind }) => kind)).toContain('pack loaded'),
    misses: null,
  },
  'changes.one': {
    asks: { change: 1 },
    gives: ({ change, altered }) => expect([change, altered.length > 0]).toEqual([1, true]),
    misses: [{ change: 9999 }, 'not-found'],
  },
  'changes.lookUndo': {
    asks: { change: 1 },
    gives: ({ cells, disputes }) => expect([cells.length > 0, disputes]).toEqual([true, []]),
    misses: [{ change: 9999 }, 'not-found'],
  },
  'changes.would': {
    asks: { of: { edits: [{ list: 'parts', put: { ...ownPart.put, facts: { 'cw-exducer': { kind: 'not known' } } } }] } },
    gives: (would) => expect([would?.names, would?.cases]).toEqual([[], expect.any(Number)]),
    misses: [{ of: { undo: 9999 } }, 'not-found'],
  },
  'changes.retell': {
    asks: { of: { edits: [ownPart] } },
    gives: ({ token }) => expect(token).toMatch(/^[0-9a-f-]{36}$/),
    misses: [{ of: { edits: [{ list: 'parts', drop: 'no-such' }] } }, 'edit-invalid'],
  },
  'changes.retelling': {
    asks: { token: none },
    askedAfter: ofRetelling,
    gives: ({ state }) => expect(['running', 'done']).toContain(state),
    misses: [{ token: '00000000-0000-4000-8000-000000000000' }, 'not-found'],
  },
  'changes.stopRetelling': {
    asks: { token: none },
    askedAfter: ofRetelling,
    gives: (done) => expect(done).toBeNull(),
    misses: [{ token: '00000000-0000-4000-8000-000000000000' }, 'not-found'],
  },
  'changes.stood': {
    asks: { until: '2020-01-01T00:00:00.000Z' },
    gives: ({ packs, since }) => expect([packs, since.length > 0]).toEqual([[], true]),
    misses: null,
  },
  'changes.stoodEntry': {
    asks: { until: '2020-01-01T00:00:00.000Z', list: 'parts', id: 'ch-tern' },
    gives: ({ entry, now }) => expect([entry, now?.id]).toEqual([null, 'ch-tern']),
    misses: [{ until: '2020-01-01T00:00:00.000Z', list: 'parts', id: 'no-such' }, 'not-found'],
  },
  'changes.undo': {
    asks: { change: 1, rest: false, who: 'Ines', why: '', head: '' },
    askedAfter: ofChange,
    gives: ({ change }) => expect(change).not.toBeNull(),
    misses: [{ change: 1, rest: false, who: '', why: '', head: '' }, 'changed-since'],
  },
  'edit.form': {
    asks: { list: 'generations' },
    gives: ({ one, shape, references }) => {
      expect([one, shape.required]).toEqual(['generation', ['id', 'family', 'name', 'from', 'to', 'succeeds', 'source']]);
      expect(references).toContainEqual({ at: ['succeeds'], list: 'generations' });
    },
    misses: [{ list: 'weather' }, 'not-found'],
  },
  'edit.check': {
    asks: { list: 'stages', put: { id: 'stripped', name: ' ', minutes: 'ten', after: [] } },
    gives: (faults) => expect(faults.map(({ field }) => field)).toEqual(['name', 'minutes']),
    misses: null,
  },
  'edit.entries': {
    asks: { list: 'parts', text: 'berth 310 0057', slot: null, limit: 5 },
    gives: (found) => expect(found.map(({ id }) => id)).toEqual(['cw-petrel-13']),
    misses: [{ list: 'weather', text: '', slot: null, limit: 5 }, 'not-found'],
  },
  'edit.named': {
    asks: {
      of: [
        { list: 'makers', id: 'merrowby' },
        { list: 'parts', id: 'nobody' },
      ],
    },
    gives: (named) => expect(named.map((one) => one?.name ?? null)).toEqual(['Merrowby', null]),
    misses: null,
  },
  'edit.cells': {
    asks: { facts: { [asId<FeatureId>('cw-exducer')]: { kind: 'measure', nominal: 57.2, lower: -0.05, upper: 0.05 } } },
    gives: (cells) => expect(cells).toEqual({ 'cw-exducer': '57.2 ±0.05' }),
    misses: null,
  },
  'edit.facts': {
    asks: { cells: { [asId<FeatureId>('cw-exducer')]: '57,2 ±0.05', [asId<FeatureId>('cw-blades')]: 'ten' } },
    gives: (read) =>
      expect(read).toEqual({
        'cw-exducer': { ok: true, fact: { kind: 'measure', nominal: 57.2, lower: -0.05, upper: 0.05 } },
        'cw-blades': { ok: false, sentence: expect.stringContaining('ten'), likely: [] },
      }),
    misses: null,
  },
  'edit.reads': {
    asks: { maker: newMaker, text: 'Heron 12' },
    gives: ({ name, numbers }) => {
      expect(name).toEqual({
        pieces: [
          { token: 'family', text: 'Heron' },
          { token: 'size', text: '12' },
        ],
        faults: [],
        model: null,
      });
      expect(numbers).toEqual([]);
    },
    misses: [{ maker: { ...newMaker, plateRule: 'perhaps' }, text: 'Heron 12' }, 'edit-invalid'],
  },
  'edit.many': {
    asks: {
      parts: [asId<PartId>('cw-tern-4'), asId<PartId>('cw-petrel-13')],
      said: { of: 'feature', feature: asId('cw-blades'), fact: { kind: 'count', from: 8, to: 8 } },
    },
    gives: (edits) => expect(edits).toMatchObject([{ list: 'parts', put: { id: 'cw-petrel-13', facts: { 'cw-blades': { from: 8 } } } }]),
    misses: null,
  },
  'edit.renamed': {
    asks: { list: 'parts', from: 'cw-petrel-13', to: 'cw-petrel-thirteen' },
    gives: (edits) => expect(edits).toContainEqual({ list: 'parts', drop: 'cw-petrel-13', into: 'cw-petrel-thirteen' }),
    misses: [{ list: 'parts', from: 'cw-petrel-13', to: 'cw-tern-4' }, 'edit-invalid'],
  },
  'edit.merged': {
    asks: { list: 'parts', from: 'cw-tern-9', into: 'cw-tern-4', choices: {} },
    gives: ({ differences }) => expect(differences.map(({ key }) => key)).toEqual(['name', 'facts/cw-exducer']),
    misses: [{ list: 'parts', from: 'cw-tern-9', into: 'bh-tern', choices: {} }, 'edit-invalid'],
  },
  'edit.renumbered': {
    asks: { from: 'BERTH 310 0057', to: 'BERTH 310-57' },
    gives: (edits) => expect(edits).toMatchObject([{ put: { id: 'cw-petrel-13', numbers: ['BERTH 310-57'] } }]),
    misses: null,
  },
  'changes.entry': {
    asks: { list: 'parts', id: 'ch-tern' },
    gives: ({ entry, packs, words }) =>
      expect([entry.slot, packs.map(({ id }) => id), words]).toEqual(['compressor-housing', ['small'], []]),
    misses: [{ list: 'parts', id: 'no-such' }, 'not-found'],
  },
  'backups.list': {
    asks: {},
    gives: ({ folder, backups, atMost, failed }) => {
      expect(folder).toMatch(/backups$/);
      expect(backups.map(({ reason }) => reason).filter((reason) => reason !== 'asked' && reason !== 'before-restore')).toEqual([]);
      expect([atMost, failed]).toEqual([2 * 2 ** 30, null]);
    },
    misses: null,
  },
  'backups.make': {
    asks: {},
    gives: (made) => expect(made).toMatchObject({ reason: 'asked', state: { kind: 'sound', counts: { packs: 1 } } }),
    misses: null,
  },
  'backups.preview': {
    asks: { name: 'newest' },
    askedAfter: async (asks, ask) => {
      await ask('backups.make', {});
      return asks;
    },
    gives: ({ differences, madeAgainst }) => {
      expect(differences.map(({ what }) => what)).toContain('packs');
      expect(madeAgainst).toMatch(/^[0-9a-f]{64}$/);
    },
    misses: [{ name: 'none.sqlite' }, 'not-found'],
  },
  'backups.anew': { asks: {}, gives: (nothing) => expect(nothing).toBeNull(), misses: null },
  'backups.restore': {
    asks: { name: 'newest', madeAgainst: '0'.repeat(64) },
    askedAfter: async (asks, ask) => {
      await ask('backups.make', {});
      const preview = await ask('backups.preview', { name: 'newest' });
      return preview.ok ? { ...asks, madeAgainst: (preview.value as CallResult<'backups.preview'>).madeAgainst ?? '' } : asks;
    },
    gives: ({ from, before }) =>
      expect([from, before]).toEqual([expect.stringMatching(/-asked\.sqlite$/), expect.stringMatching(/-before-restore/)]),
    misses: [{ name: 'none.sqlite', madeAgainst: '0'.repeat(64) }, 'not-found'],
  },
  'keyring.own': { asks: {}, gives: (own) => expect(own).toBeNull(), misses: null },
  'keyring.make': {
    asks: { name: ' Saltmarsh ', who: 'Osk', passphrase: null },
    gives: ({ name, text }) => expect([name, text.split('\n')[1]]).toEqual(['Saltmarsh', 'name: Saltmarsh']),
    misses: [{ name: ' ', who: '', passphrase: null }, 'key-unreadable'],
  },
  'keyring.keys': { asks: {}, gives: (keys) => expect(keys).toEqual([]), misses: null },
  'keyring.look': {
    asks: { text: publicKeyText },
    gives: ({ name, fingerprint }) => expect([name, publicKeyText.includes(`fingerprint: ${fingerprint}`)]).toEqual(['Tern Works', true]),
    misses: [{ text: 'a letter' }, 'key-unreadable'],
  },
  'keyring.trust': {
    asks: { text: publicKeyText, who: 'Osk' },
    gives: (key) => expect(key).toMatchObject({ name: 'Tern Works', who: 'Osk', withdrawn: null }),
    misses: [{ text: publicKeyText.replace('Tern Works', ''), who: '' }, 'key-unreadable'],
  },
  'keyring.withdraw': {
    asks: { key: 'Tern Works', who: 'Wenna' },
    askedAfter: async (asks, ask) => {
      await ask('keyring.trust', { text: publicKeyText, who: 'Osk' });
      return asks;
    },
    gives: ({ withdrawn }) => expect(withdrawn?.who).toBe('Wenna'),
    misses: [{ key: 'nobody', who: '' }, 'not-found'],
  },
  'keyring.sign': {
    asks: { pack: 'small', passphrase: null },
    askedAfter: async (asks, ask) => {
      await ask('keyring.make', { name: 'Saltmarsh', who: '', passphrase: null });
      return asks;
    },
    gives: ({ name }) => expect(name).toBe('Saltmarsh'),
    misses: [{ pack: 'nobody', passphrase: null }, 'not-found'],
  },
  'drills.learners': { asks: {}, gives: (learners) => expect(learners).toEqual([]), misses: null },
  'drills.saveLearner': {
    asks: { name: 'Jory', course: null },
    gives: ({ id, name, course }) => expect([id.length > 10, name, course]).toEqual([true, 'Jory', null]),
    misses: [{ name: 'Jory', course: 'no-course' }, 'not-found'],
  },
  'drills.removeLearner': {
    asks: { id: 'nobody' },
    askedAfter: async (_asks, ask) => ({ id: (await ofLearner({}, ask)).learner }),
    gives: (nothing) => expect(nothing).toBeNull(),
    misses: [{ id: 'nobody' }, 'not-found'],
  },
  'settings.all': {
    asks: {},
    gives: (settings) => {
      expect(settings.letterhead).toEqual({ value: { name: '', lines: [], logo: null }, version: null, at: null, who: '' });
      expect(settings.money.value).toBeNull();
    },
    misses: null,
  },
  'settings.save': {
    asks: {
      setting: { key: 'letterhead', value: { name: 'Saltmarsh Rotor & Fuel', lines: ['Port Hallow'] } },
      who: 'Ines',
      madeAgainst: null,
    },
    gives: (version) => expect(version).toBe(versionOf({ name: 'Saltmarsh Rotor & Fuel', lines: ['Port Hallow'], logo: null })),
    misses: [{ setting: { key: 'measures', value: { unit: 'inch', comma: true } }, madeAgainst: none }, 'changed-since'],
  },
  'settings.setLogo': {
    asks: { logo: { name: 'sign.png', data: png.toString('base64') }, madeAgainst: null },
    gives: ({ logo }) => expect(logo).toMatchObject({ type: 'image/png', file: createHash('sha256').update(png).digest('hex') }),
    misses: [{ logo: { name: 'letter.txt', data: Buffer.from('words').toString('base64') }, madeAgainst: null }, 'photo-unreadable'],
  },
  'settings.logo': {
    asks: {},
    askedAfter: async (asks, ask) => {
      await ask('settings.setLogo', { logo: { name: 'sign.png', data: png.toString('base64') }, madeAgainst: null });
      return asks;
    },
    gives: ({ type, data }) => expect([type, data]).toEqual(['image/png', png.toString('base64')]),
    misses: [{}, 'not-found'],
  },
  'number.find': {
    asks: { text: 'berth 310 0057' },
    gives: ({ parts, stock }) => {
      expect(parts.map(({ part, number }) => [part.id, number])).toEqual([['cw-petrel-13', 'BERTH 310-0057']]);
      expect(stock).toEqual([]);
    },
    misses: null,
  },
  'number.soFar': {
    asks: { text: 'berth 310 0057', says: 'part number', entry: null },
    gives: ({ parts }) =>
      expect(parts.map(({ part, supersededBy }) => [part, supersededBy?.part])).toEqual([['cw-petrel-13', 'cw-petrel-13-c']]),
    misses: null,
  },
  'samples.of': {
    asks: { part: 'cw-quay-13' },
    askedAfter: async (asks, ask) => {
      await ofSample({}, ask);
      return asks;
    },
    gives: ({ samples, features, cases }) => {
      expect(samples[0]).toMatchObject({ feature: 'cw-blades', u: null, number: 'A-2026-0001', who: 'Ines', out: null });
      expect(features).toMatchObject([
        { kind: 'seen', tallies: [{ sheets: ['counter-02'] }], word: { fact: { kind: 'count', from: 7, to: 7 }, from: 'seen' } },
      ]);
      expect(cases).toMatchObject([{ number: 'A-2026-0001', sheet: 'counter-02' }]);
    },
    misses: [{ part: 'cw-heron' }, 'not-found'],
  },
  'samples.keep': {
    asks: { ...wheelOfCase, version: none, part: 'cw-quay-13' },
    askedAfter: ofCase,
    gives: ({ fresh, same }) => expect(fresh + same).toBe(1),
    misses: [{ ...wheelOfCase, version: none, part: 'cw-quay-13' }, 'changed-since'],
  },
  'samples.takeOut': {
    asks: { sample: 'none' },
    askedAfter: ofSample,
    gives: (value) => expect(value).toBe(null),
    misses: [{ sample: 'none' }, 'not-found'],
  },
  'samples.word': {
    asks: { part: 'cw-quay-13', feature: 'cw-blades' },
    askedAfter: async (asks, ask) => {
      await ofSample({}, ask);
      return asks;
    },
    gives: ({ edits, source }) => {
      expect(source).toBe('One sample of case A-2026-0001');
      expect(edits).toMatchObject([{ list: 'sources' }, { list: 'parts', put: { id: 'cw-quay-13' } }]);
    },
    misses: [{ part: 'cw-quay-13', feature: 'cw-exducer' }, 'not-found'],
  },
  'samples.newPart': {
    asks: { ...wheelOfCase, version: none, named: { name: 'Nameless wheel', maker: null, numbers: [] } },
    askedAfter: ofCase,
    gives: ({ part, edits }) => {
      expect(part).toMatchObject({ id: 'nameless-wheel', facts: { 'cw-blades': { kind: 'count', from: 7, to: 7 } } });
      expect(edits.length).toBe(2);
    },
    misses: [{ ...wheelOfCase, version: none, named: { name: 'Nameless wheel', maker: null, numbers: [] } }, 'changed-since'],
  },
  'documents.of': { asks: { about: [{ kind: 'part', id: 'bh-tern' }] }, gives: (papers) => expect(papers).toEqual([]), misses: null },
  'documents.add': {
    asks: letter,
    gives: (papers) => expect(papers).toMatchObject([{ about: letter.about, title: 'a letter', type: 'text/plain', size: 12 }]),
    misses: [{ ...letter, about: { kind: 'source', id: 'nothing' } }, 'not-found'],
  },
  'documents.remove': {
    asks: { about: letter.about, file: none },
    askedAfter: ofLetter,
    gives: (papers) => expect(papers).toEqual([]),
    misses: [{ about: letter.about, file: none }, 'not-found'],
  },
  'documents.read': {
    asks: { file: none },
    askedAfter: async (asks, ask) => ({ file: (await ofLetter({ ...asks, about: letter.about }, ask)).file }),
    gives: ({ type, data }) => expect([type, data]).toEqual(['text/plain', letter.data]),
    misses: [{ file: none }, 'not-found'],
  },
  'prices.list': { asks: {}, gives: (prices) => expect(prices).toEqual([]), misses: null },
  'prices.of': { asks: { part: 'bh-tern' }, gives: (price) => expect(price).toEqual({ own: null, packs: [] }), misses: null },
  'prices.set': {
    asks: { part: 'bh-tern', price: { amount: 15, money: 'XTS' }, madeAgainst: null },
    gives: (nothing) => expect(nothing).toBeNull(),
    misses: [{ part: 'bh-heron', price: { amount: 15, money: 'XTS' }, madeAgainst: null }, 'not-found'],
  },
  'prices.history': {
    asks: { part: 'bh-tern' },
    askedAfter: ofPrice,
    gives: (states) => expect(states).toMatchObject([{ who: 'Ines', price: { amount: 15, money: 'XTS' } }]),
    misses: [{ part: 'bh-heron' }, 'not-found'],
  },
  'prices.csv': { asks: {}, gives: (text) => expect(text).toMatch(/^part,state,name,price,money,note[\r\n]+$/), misses: null },
  'prices.lookAtTable': {
    asks: { text: 'part,price,money\nbh-tern,15,XTS\n', file: 'prices.csv' },
    gives: (table) => expect(table).toEqual({ fresh: 1, changed: 0, off: 0, same: 0 }),
    misses: [{ text: 'part,price\nbh-heron,\n', file: 'prices.csv' }, 'stock-table-invalid'],
  },
  'prices.takeInTable': {
    asks: { text: 'part,price,money\nbh-tern,15,XTS\n', file: 'prices.csv', who: 'Ines' },
    gives: (table) => expect(table).toEqual({ fresh: 1, changed: 0, off: 0, same: 0 }),
    misses: [{ text: 'part;price\nbh-tern;12\n', file: 'prices.csv' }, 'stock-table-invalid'],
  },
  'stock.list': { asks: {}, gives: (lines) => expect(lines).toEqual([]), misses: null },
  'stock.of': { asks: { part: 'bh-tern' }, gives: (lines) => expect(lines).toEqual([]), misses: null },
  'stock.history': {
    asks: { line: 'no-line' },
    askedAfter: ofStock,
    gives: (states) => expect(states).toMatchObject([{ who: 'Ines', line: onTheShelf }]),
    misses: [{ line: 'no-line' }, 'not-found'],
  },
  'stock.save': {
    asks: { line: { ...onTheShelf, part: 'ch-rowan', words: '' }, madeAgainst: null },
    gives: (line) => expect(line).toMatchObject({ part: 'ch-rowan', slot: 'compressor-housing', many: 2, state: 1 }),
    misses: [{ line: { ...onTheShelf, part: 'ch-heron' }, madeAgainst: null }, 'not-found'],
  },
  'stock.take': {
    asks: { line: 'no-line', many: 2 },
    askedAfter: ofStock,
    gives: (line) => expect(line).toMatchObject({ many: 0, state: 2 }),
    misses: [{ line: 'no-line', many: 1 }, 'not-found'],
  },
  'stock.remove': {
    asks: { line: 'no-line', madeAgainst: none },
    askedAfter: async (asks, ask) => ({ ...(await ofStock(asks, ask)), madeAgainst: versionOf(onTheShelf) }),
    gives: (nothing) => expect(nothing).toBeNull(),
    misses: [{ line: 'no-line', madeAgainst: none }, 'not-found'],
  },
  'stock.csv': { asks: {}, gives: (text) => expect(text).toMatch(/^line,state,part,what,.*[\r\n]+$/), misses: null },
  'stock.lookAtTable': {
    asks: stockTable,
    gives: (table) => expect(table).toEqual({ fresh: 1, changed: 0, same: 0 }),
    misses: [{ ...stockTable, text: 'what,how many\r\nHeat shield,some\r\n' }, 'stock-table-invalid'],
  },
  'stock.takeInTable': {
    asks: stockTable,
    gives: (table) => expect(table).toEqual({ fresh: 1, changed: 0, same: 0 }),
    misses: [{ ...stockTable, text: 'part,how many\r\nch-heron,1\r\n' }, 'stock-table-invalid'],
  },
  'drills.courses': { asks: {}, gives: (courses) => expect(courses).toEqual([]), misses: null },
  'drills.saveCourse': {
    asks: { name: 'Journal and cartridge', families: ['petrel'], kinds: ['grammar', 'name'], newPerDay: 5, madeAgainst: null },
    gives: (course) => expect(course).toMatchObject({ name: 'Journal and cartridge', families: ['petrel'], newPerDay: 5 }),
    misses: [{ name: 'Herons', families: ['heron'], kinds: null, newPerDay: 5, madeAgainst: null }, 'not-found'],
  },
  'drills.removeCourse': {
    asks: { id: 'no-course', madeAgainst: none },
    askedAfter: async (_asks, ask) => {
      const saved = await ask('drills.saveCourse', { name: 'All', families: null, kinds: null, newPerDay: 5, madeAgainst: null });
      if (!saved.ok) throw new Error(saved.trouble.sentence);
      const { id, version } = saved.value as CallResult<'drills.saveCourse'>;
      return { id, madeAgainst: version };
    },
    gives: (nothing) => expect(nothing).toBeNull(),
    misses: [{ id: 'no-course', madeAgainst: none }, 'not-found'],
  },
  'drills.next': {
    asks: { learner: 'nobody' },
    askedAfter: ofLearner,
    gives: (next) => {
      if (next.state !== 'drill') throw new Error('the small pack gives no drill');
      expect(next.drill.choices.length).toBeGreaterThan(1);
      expect(next.why).toBe('new');
    },
    misses: [{ learner: 'nobody' }, 'not-found'],
  },
  'drills.answer': {
    asks: { learner: 'nobody', topic: 'grammar:merrowby', seed: 7, edition: '', response: ['x'] },
    askedAfter: async (asks, ask) => {
      const { learner } = await ofLearner(asks, ask);
      const reply = await ask('drills.next', { learner });
      if (!reply.ok || (reply.value as CallResult<'drills.next'>).state !== 'drill') throw new Error('the small pack gives no drill');
      const { drill } = reply.value as Extract<CallResult<'drills.next'>, { state: 'drill' }>;
      const ids = drill.choices.map(({ id }) => id);
      const response = drill.respond.kind === 'order' ? ids : ids.slice(0, drill.respond.kind === 'one' ? 1 : drill.respond.count);
      return { learner, topic: drill.topic, seed: drill.seed, edition: drill.edition, response };
    },
    gives: ({ judgement, today }) => {
      expect(judgement.sentences.length).toBeGreaterThan(0);
      expect(today).toMatchObject({ answered: 1, right: judgement.right ? 1 : 0 });
    },
    misses: [{ learner: 'nobody', topic: 'grammar:heron', seed: 7, edition: '', response: [] }, 'not-found'],
  },
  'drills.confusions': {
    asks: { learner: 'nobody' },
    askedAfter: ofLearner,
    gives: (rows) => expect(rows).toEqual([]),
    misses: [{ learner: 'nobody' }, 'not-found'],
  },
  'drills.known': {
    asks: {},
    askedAfter: async (asks, ask) => {
      await ofLearner({ learner: 'nobody' }, ask);
      return asks;
    },
    gives: (rows) => {
      expect(rows[0]?.learner).toMatchObject({ name: 'Jory', level: 'measured' });
      for (const { topics, right, asked, lastAt } of rows[0]?.families ?? [])
        expect([topics > 0, right, asked, lastAt]).toEqual([true, 0, 0, null]);
    },
    misses: null,
  },
  'drills.questions': {
    asks: { number: 3, count: 2, families: null, kinds: null, level: 'by eye' },
    gives: ({ questions, asked }) => {
      expect(questions.length).toBeGreaterThan(0);
      expect(questions.every(({ key }) => key.right)).toBe(true);
      expect(asked).toMatchObject({ number: 3, level: 'by eye' });
    },
    misses: [{ number: 3, count: 2, families: ['heron'], kinds: null }, 'not-found'],
  },
  'atlas.vocabulary': {
    asks: {},
    gives: (vocabulary) => {
      expect(vocabulary.packs.map(({ id }) => id)).toEqual(['small']);
      expect(vocabulary.slots.map(({ name }) => name)).toContain('compressor wheel');
    },
    misses: null,
  },
  'atlas.search': {
    asks: { text: 'petrel', limit: 5 },
    gives: (hits) => expect(hits.map(({ node }) => node.name)).toContain('Petrel'),
    misses: null,
  },
  'atlas.maker': {
    asks: { id: 'merrowby' },
    gives: ({ maker }) => expect(maker.name).toBe('Merrowby'),
    misses: [{ id: 'nobody' }, 'not-found'],
  },
  'atlas.family': {
    asks: { id: 'petrel' },
    gives: ({ family }) => expect(family.name).toBe('Petrel'),
    misses: [{ id: 'heron' }, 'not-found'],
  },
  'atlas.model': {
    asks: { id: 'petrel-13' },
    gives: ({ model }) => expect(model.name).toBe('Petrel 13 Cartridge'),
    misses: [{ id: 'petrel-14' }, 'not-found'],
  },
  'atlas.part': {
    asks: { id: 'cw-petrel-13-b' },
    gives: ({ supersession }) => expect(supersession.map(({ id }) => id)).toEqual(['cw-petrel-13', 'cw-petrel-13-b', 'cw-petrel-13-c']),
    misses: [{ id: 'cw-heron' }, 'not-found'],
  },
  'atlas.fits': {
    asks: { part: 'cw-petrel-13' },
    gives: ({ part, partners }) => {
      expect(part.id).toBe('cw-petrel-13');
      for (const { fit } of partners) expect(fit.verdict).not.toBe('will not fit');
      for (const { fit } of partners) expect([fit.a, fit.b]).toContain(asId<PartId>('cw-petrel-13'));
    },
    misses: [{ part: 'cw-heron' }, 'not-found'],
  },
  'atlas.descent': {
    asks: { family: 'petrel' },
    gives: ({ ancestors }) => expect(ancestors.map(({ family }) => family.id)).toContain('tern'),
    misses: [{ family: 'heron' }, 'not-found'],
  },
  'atlas.related': {
    asks: { a: 'petrel', b: 'quay-group' },
    gives: ({ steps }) => expect(steps).toHaveLength(1),
    misses: [{ a: 'petrel', b: 'heron' }, 'not-found'],
  },
  'tree.atlas': {
    asks: {},
    gives: ({ makers, families, shared }) => {
      expect(makers.map(({ id }) => id)).toContain('merrowby');
      expect(families.find(({ id }) => id === 'quay-group')).toMatchObject({ maker: null, from: null, to: null, patternOf: ['petrel'] });
      expect(shared).toMatchObject([{ group: 'core', families: ['tern', 'rowan'], slots: ['compressor-wheel'] }]);
    },
    misses: null,
  },
  'tree.parts': {
    asks: { models: ['petrel-13', 'tern-4'] },
    gives: (models) => expect(models.map(({ model }) => model)).toEqual(['petrel-13', 'tern-4']),
    misses: [{ models: ['heron-1'] }, 'not-found'],
  },
  'tree.related': {
    asks: { a: { kind: 'model', id: 'petrel-13' }, b: { kind: 'generation', id: 'petrel-2' } },
    gives: ({ steps }) => expect(steps).toHaveLength(2),
    misses: [{ a: { kind: 'model', id: 'petrel-13' }, b: { kind: 'part', id: 'heron' } }, 'not-found'],
  },
  'apart.of': {
    asks: {
      subjects: [
        { kind: 'family', id: 'petrel' },
        { kind: 'family', id: 'quay-group' },
      ],
      scope: {},
    },
    gives: ({ subjects, pairs, cautions }) => {
      expect(subjects).toHaveLength(2);
      expect(pairs).toEqual([[0, 1]]);
      expect(cautions.length).toBeGreaterThan(0);
    },
    misses: [
      {
        subjects: [
          { kind: 'family', id: 'petrel' },
          { kind: 'family', id: 'heron' },
        ],
        scope: {},
      },
      'not-found',
    ],
  },
  'apart.parts': {
    asks: { parts: ['cw-petrel-13'] },
    gives: ([part]) => expect(part).toMatchObject({ id: 'cw-petrel-13', slot: 'compressor-wheel' }),
    misses: [{ parts: ['cw-heron'] }, 'not-found'],
  },
  'key.of': {
    asks: { level: 'models', scope: {} },
    gives: ({ labels, expected, atLeast }) => {
      expect(labels.map(({ id }) => id)).toContain('petrel-13');
      expect(expected).toBeGreaterThanOrEqual(atLeast);
    },
    misses: [{ level: 'models', families: ['heron'], scope: {} }, 'not-found'],
  },
  'sheets.list': {
    asks: {},
    gives: (sheets) => expect(sheets.map(({ id }) => id)).toEqual(expect.arrayContaining(['found-01'])),
    misses: null,
  },
  'sheets.open': {
    asks: { id: 'found-01' },
    gives: ({ sheet: { id }, saved }) => expect([id, saved]).toEqual(['found-01', null]),
    misses: [{ id: 'found-99' }, 'not-found'],
  },
  'sheets.save': {
    asks: { sheet, madeAgainst: null },
    gives: (summary) => expect(summary).toMatchObject({ id: 'counter-01', origin: 'own', observations: 2, version: versionOf(sheet) }),
    misses: [{ sheet: { ...sheet, absent: ['propeller'] }, madeAgainst: null }, 'sheet-unknown'],
  },
  'sheets.remove': {
    asks: { id: 'counter-02', madeAgainst: none },
    askedAfter: async ({ id }, ask) => {
      const opened = await ask('sheets.open', { id });
      if (!opened.ok) throw new Error(opened.trouble.sentence);
      return { id, madeAgainst: (opened.value as CallResult<'sheets.open'>).whole ?? '' };
    },
    gives: (nothing) => expect(nothing).toBeNull(),
    misses: [{ id: 'found-99', madeAgainst: none }, 'not-found'],
  },
  'sheets.read': {
    asks: { text: JSON.stringify(sheet), file: 'counter-01.json' },
    gives: (read) => expect(read).toEqual(sheet),
    misses: [{ text: '{', file: 'torn.json' }, 'sheet-unreadable'],
  },
  'sheets.write': { asks: { sheet }, gives: (text) => expect(JSON.parse(text)).toEqual(sheet), misses: null },
  'entry.slip': {
    asks: { sheet, feature: asId('cw-exducer'), value: { kind: 'measure', value: -3 }, sure: { kind: 'measured', u: 0.02 } },
    gives: (slip) => expect(slip).toMatchObject({ kind: 'impossible', of: 'figure' }),
    misses: [{ sheet, feature: asId('propeller-blades'), value: { kind: 'count', from: 3, to: 3 }, sure: { kind: 'seen' } }, 'not-found'],
  },
  'verdict.of': {
    asks: { sheet },
    gives: (answer) => {
      expect(answer.kind).toBe('verdict');
      if (answer.kind === 'verdict') expect(answer.claim?.status).toBe('ruled out');
    },
    misses: [
      { sheet: { ...sheet, observations: sheet.observations.map((one) => ({ ...one, feature: asId('propeller-blades') })) } },
      'sheet-unknown',
    ],
  },
  'verdict.names': {
    asks: { sheet, statuses: ['ruled out'], text: 'PETREL  13', from: 0, count: 500 },
    gives: ({ count, rows, counts }) => {
      expect(rows.map(({ name }) => name.id)).toContain('model:petrel-13');
      expect(rows.every(({ status, name }) => status === 'ruled out' && name.text.includes('Petrel 13'))).toBe(true);
      expect([count, counts['ruled out']]).toEqual([rows.length, rows.length]);
    },
    misses: [{ sheet: { ...sheet, absent: ['propeller'] }, statuses: [], text: '', from: 0, count: 1 }, 'sheet-unknown'],
  },
  'verdict.parts': {
    asks: { sheet, slot: asId('bearing-housing'), of: 'left', from: 0, count: 50 },
    gives: ({ count, rows }) => {
      expect(count).toBe(rows.length);
      for (const { name, because, features } of rows) expect([name !== '', because, features]).toEqual([true, null, []]);
    },
    misses: [{ sheet, slot: 'propeller', of: 'left', from: 0, count: 1 }, 'not-found'],
  },
  'verdict.readings': {
    asks: { sheet, from: 0, count: 10 },
    gives: (page) => expect(page).toEqual({ count: 0, rows: [] }),
    misses: [{ sheet: { ...sheet, absent: ['propeller'] }, from: 0, count: 1 }, 'sheet-unknown'],
  },
  'verdict.reasons': {
    asks: { sheet, name: asId<NameId>('model:petrel-13'), from: 0, count: 1 },
    gives: ({ count, rows }) => {
      expect(rows).toHaveLength(1);
      expect(count).toBeGreaterThanOrEqual(1);
    },
    misses: [{ sheet, name: 'model:heron-1', from: 0, count: 1 }, 'not-found'],
  },
  'verdict.swaps': {
    asks: { sheet, name: asId<NameId>('model:petrel-13'), from: 0, count: 500 },
    gives: ({ count, rows }) => expect(rows).toHaveLength(count),
    misses: [{ sheet, name: 'model:heron-1', from: 0, count: 1 }, 'not-found'],
  },
  'verdict.replacements': {
    asks: {
      sheet,
      name: asId<NameId>('model:petrel-13'),
      slots: [asId('compressor-wheel')],
      slot: asId('compressor-wheel'),
      from: 0,
      count: 9,
    },
    askedAfter: async (asked, ask) => {
      const swaps = await ask('verdict.swaps', { sheet, name: asked.name, from: 0, count: 1 });
      if (!swaps.ok) throw new Error(swaps.trouble.sentence);
      const [set] = (swaps.value as CallResult<'verdict.swaps'>).rows;
      return { ...asked, slots: set?.slots ?? [], slot: set?.parts[0]?.slot ?? asked.slot };
    },
    gives: ({ count, rows }) => {
      expect(count).toBeGreaterThan(0);
      expect(rows).toHaveLength(count);
      for (const { name } of rows) expect(name).not.toBe('');
    },
    misses: [{ sheet, name: 'model:petrel-13', slots: ['nameplate'], slot: 'nameplate', from: 0, count: 1 }, 'not-found'],
  },
  'verdict.explain': {
    asks: { sheet, name: asId<NameId>('model:petrel-13') },
    gives: ({ status, conflicts }) => {
      expect(status).toBe('ruled out');
      expect(conflicts?.found.length).toBeGreaterThan(0);
    },
    misses: [{ sheet, name: 'model:heron-1' }, 'not-found'],
  },
  'odds.of': {
    asks: { sheet },
    gives: ({ odds, next }) => {
      expect(odds.kind).toBe('odds');
      if (odds.kind === 'odds') expect(next?.check).toEqual(odds.checks[0]);
    },
    misses: [{ sheet: { ...sheet, absent: ['propeller'] } }, 'sheet-unknown'],
  },
  'odds.check': {
    asks: { sheet, feature: 'bs-kind', assumptions: { stranger: 0.1, swapped: 0.1, unlisted: 0.1, misfit: 0.1, slip: 0.01 } },
    gives: (effects) => expect(effects?.check.feature).toBe('bs-kind'),
    misses: [{ sheet: { ...sheet, absent: ['propeller'] }, feature: 'bs-kind' }, 'sheet-unknown'],
  },
  'odds.advice': {
    asks: { sheet },
    gives: (advised) => {
      expect(['you may stop', 'go on', 'not settled']).toContain(advised?.stopping.kind);
      expect(['look', 'read again', 'stop', 'nothing more']).toContain(advised?.advice.kind);
    },
    misses: [{ sheet: { ...sheet, absent: ['propeller'] } }, 'sheet-unknown'],
  },
  'odds.plan': {
    asks: { sheet },
    gives: (plan) => expect(['check', 'end']).toContain(plan?.kind),
    misses: [{ sheet: { ...sheet, absent: ['propeller'] } }, 'sheet-unknown'],
  },
  'listing.read': {
    asks: { text: 'Merrowby Petrel 13 Cartridge, compressor wheel with 7 blades' },
    gives: ({ finds }) =>
      expect(finds.map(({ text, becomes }) => [text, becomes[0].kind])).toEqual([
        ['Merrowby Petrel 13 Cartridge', 'claim'],
        ['7 blades', 'told'],
      ]),
    misses: null,
  },
  'report.of': {
    asks: { sheet },
    gives: ({ title, sections }) => {
      expect(title).toBe('Report on a turbocharger');
      expect(sections.map(({ id }) => id)).toEqual(['seen', 'ruled-out', 'stands', 'open', 'ticket', 'cautions']);
    },
    misses: [{ sheet: build }, 'not-a-found-unit'],
  },
  'report.pdf': {
    asks: { sheet },
    gives: ({ data }) => expect(Buffer.from(data, 'base64').subarray(0, 5).toString()).toBe('%PDF-'),
    misses: [{ sheet: { ...sheet, absent: ['propeller'] } }, 'sheet-unknown'],
  },
  'table.handIn': {
    asks: { token: null, name: 'list.csv', data: 'YQ==' },
    gives: ({ bytes }) => expect(bytes).toBe(1),
    misses: [{ token: noToken, name: 'list.csv', data: 'YQ==' }, 'not-found'],
  },
  'table.match': {
    asks: { token: '?', kind: 'parts', sheet: null, headings: null, slot: null, template: null },
    askedAfter: ofTable,
    gives: ({ file, headings, matching: found, first, rows }) => {
      expect([file, headings, found.headings, rows]).toEqual(['list.csv', ['number', 'slot', 'maker', 'bore'], 1, 1]);
      expect(found.columns.slice(0, 3).map(({ is }) => is)).toEqual(['numbers', 'slot', 'maker']);
      expect(first).toEqual([['GUST 1', 'compressor wheel', 'none', '6']]);
    },
    misses: [{ token: noToken, kind: 'parts', sheet: null, headings: null, slot: null, template: null }, 'not-found'],
  },
  'table.uses': {
    asks: { kind: 'parts', slot: null },
    gives: (offered) => expect(offered.map(({ label }) => label)).toContain('part numbers'),
    misses: null,
  },
  'table.rows': {
    asks: { token: '?', sheet: null, from: 2, count: 10 },
    askedAfter: ofTable,
    gives: ({ rows, inAll }) => expect([rows[0]?.[0]?.text, rows.length, inAll]).toEqual(['GUST 1', 1, 2]),
    misses: [{ token: noToken, sheet: null, from: 2, count: 10 }, 'not-found'],
  },
  'table.read': {
    asks: { token: '?', matching, mended },
    askedAfter: ofTable,
    gives: ({ counts, faults, edits }) => expect([counts.added, faults, edits]).toEqual([1, [], 2]),
    misses: [{ token: noToken, matching, mended }, 'not-found'],
  },
  'table.edits': {
    asks: { token: '?', matching, mended, from: 'invented' },
    askedAfter: ofTable,
    gives: ({ edits, rows, source }) => {
      expect(rows).toEqual([null, 2]);
      expect(edits[1]).toMatchObject({ list: 'parts', put: { slot: 'compressor-wheel', numbers: ['GUST 1'], maker: null } });
      expect(source).toMatch(/^“list\.csv”, brought in on /);
    },
    misses: [{ token: noToken, matching, mended, from: 'invented' }, 'not-found'],
  },
  'table.write': {
    asks: { kind: 'parts', slot: null, found: '', format: 'csv' },
    gives: ({ name, parts, rows }) => expect([/^parts-\d{4}-\d\d-\d\d\.csv$/.test(name), parts, rows > 3]).toEqual([true, 1, true]),
    misses: null,
  },
  'table.part': {
    asks: { token: '?', part: 0 },
    askedAfter: async (asks, ask) => {
      const made = await ask('table.write', { kind: 'models', slot: null, found: '', format: 'csv' });
      if (!made.ok) throw new Error(made.trouble.sentence);
      return { ...asks, token: (made.value as CallResult<'table.write'>).token };
    },
    gives: ({ data }) => expect(Buffer.from(data, 'base64').toString()).toMatch(/^id,model,family,/),
    misses: [{ token: noToken, part: 0 }, 'not-found'],
  },
  'table.keep': {
    asks: { name: 'the list', headings: ['number', 'slot', 'maker', 'bore'], matching },
    gives: (nothing) => expect(nothing).toBeNull(),
    misses: null,
  },
  'table.forget': {
    asks: { name: 'the other list' },
    askedAfter: async (asks, ask) => {
      await ask('table.keep', { name: asks.name, headings: [], matching });
      return asks;
    },
    gives: (nothing) => expect(nothing).toBeNull(),
    misses: [{ name: 'no such list' }, 'not-found'],
  },
  'listings.start': {
    asks: { files: [{ name: 'counter-01.json', text: JSON.stringify(sheet) }], tables: [], shelf: true },
    gives: ({ token }) => expect(token).toMatch(/^[0-9a-f-]{36}$/),
    misses: [{ files: [], tables: [], shelf: false }, 'nothing-given'],
  },
  'listings.progress': {
    asks: { token: '?' },
    askedAfter: ofListings,
    gives: ({ state }) => expect(['running', 'done']).toContain(state),
    misses: [{ token: 'made-up' }, 'not-found'],
  },
  'listings.cancel': {
    asks: { token: '?' },
    askedAfter: ofListings,
    gives: (nothing) => expect(nothing).toBeNull(),
    misses: [{ token: 'made-up' }, 'not-found'],
  },
  'listings.sheet': {
    asks: { token: '?', source: 'counter-01.json' },
    askedAfter: async (asks, ask) => ({ ...asks, ...(await ofListings(asks, ask)) }),
    gives: (found) => expect(found).toEqual(sheet),
    misses: [{ token: 'made-up', source: 'counter-01.json' }, 'not-found'],
  },
  'listings.handIn': {
    asks: { token: null, name: 'offers.csv', data: 'YQ==' },
    gives: ({ bytes }) => expect(bytes).toBe(1),
    misses: [{ token: noToken, name: 'offers.csv', data: 'YQ==' }, 'not-found'],
  },
  'listings.columns': {
    asks: { token: '?', sheet: null, headings: null },
    askedAfter: async (asks, ask) => {
      const data = Buffer.from('Link;Headline;Price\nhttps://quay.example/1;GUST 1;40').toString('base64');
      const handed = await ask('listings.handIn', { token: null, name: 'offers.csv', data });
      if (!handed.ok) throw new Error(handed.trouble.sentence);
      return { ...asks, token: (handed.value as CallResult<'listings.handIn'>).token };
    },
    gives: (found) => {
      expect(found?.matching).toEqual({ sheet: 'offers.csv', headings: 1, columns: ['link', 'title', 'price'] });
      expect(found?.first).toEqual([['https://quay.example/1', 'GUST 1', '40']]);
    },
    misses: [{ token: noToken, sheet: null, headings: null }, 'not-found'],
  },
  'listings.rows': {
    asks: { token: '?', from: 0, count: 10 },
    askedAfter: async (asks, ask) => ({ ...asks, ...(await doneListings(asks, ask)) }),
    gives: (rows) => expect(rows.map(({ source, standing }) => [source, standing])).toEqual([['counter-01.json', 'ruled out']]),
    misses: [{ token: 'made-up', from: 0, count: 10 }, 'not-found'],
  },
  'listings.csv': {
    asks: { token: '?' },
    askedAfter: async (asks, ask) => doneListings(asks, ask),
    gives: ({ parts }) => expect(parts).toBe(1),
    misses: [{ token: 'made-up' }, 'not-found'],
  },
  'listings.part': {
    asks: { token: '?', part: 0 },
    askedAfter: async (asks, ask) => {
      const written = await ask('listings.csv', await doneListings(asks, ask));
      if (!written.ok) throw new Error(written.trouble.sentence);
      return { ...asks, token: (written.value as CallResult<'listings.csv'>).token };
    },
    gives: ({ data }) =>
      expect(Buffer.from(data, 'base64').toString('utf8').split('\r\n')[1]).toMatch(/^1,ruled out,A Petrel for a low price,/),
    misses: [{ token: noToken, part: 0 }, 'not-found'],
  },
  'build.plan': {
    asks: { sheet: build },
    gives: (plan) => {
      expect(plan.kind).toBe('plan');
      if (plan.kind === 'plan') expect(plan.joints.map(({ joint }) => joint)).toEqual(['housing-on-core']);
    },
    misses: [{ sheet: noSuchPart }, 'sheet-unknown'],
  },
  'build.options': {
    asks: { sheet: build, slot: 'bearing-set' },
    gives: ({ options }) => expect(options.map(({ part }) => part)).toContain('bs-journal'),
    misses: [{ sheet: build, slot: 'propeller' }, 'not-found'],
  },
  'build.sheet': {
    asks: { sheet: build },
    gives: ({ sections }) => expect(sections.map(({ heading }) => heading)).toContain('Before it runs'),
    misses: [{ sheet: noSuchPart }, 'sheet-unknown'],
  },
  'build.complete': {
    asks: { sheet: build, constraints: { maker: 'merrowby', atMost: 2 } },
    gives: ({ token }) => expect(token).toMatch(/^[0-9a-f-]{36}$/),
    misses: [{ sheet: build, constraints: { maker: 'nobody' } }, 'not-found'],
  },
  'build.progress': {
    asks: { token: '?' },
    askedAfter: ofSearch,
    gives: ({ state }) => expect(['running', 'done']).toContain(state),
    misses: [{ token: 'made-up' }, 'not-found'],
  },
  'build.cancel': {
    asks: { token: '?' },
    askedAfter: ofSearch,
    gives: (nothing) => expect(nothing).toBeNull(),
    misses: [{ token: 'made-up' }, 'not-found'],
  },
  'compare.builds': {
    asks: {
      builds: [build, { ...build, chosen: { ...build.chosen, [asId<SlotId>('compressor-housing')]: asId<PartId>('ch-tern') } }, build].map(
        (sheet) => ({ sheet }),
      ),
      stock: null,
    },
    gives: ({ rows, differences }) => {
      expect(rows.slice(0, differences).map(({ what }) => what)).toContain('compressor housing');
      expect(rows.slice(differences).every(({ same }) => same !== 'fails')).toBe(true);
      expect(rows.every(({ cells }) => cells.length === 3)).toBe(true);
    },
    misses: [{ builds: [{ sheet: build }, { sheet: noSuchPart }], stock: [] }, 'sheet-unknown'],
  },
  'cases.list': {
    asks: { text: 'low price', status: 'ruled out' },
    gives: (cases) => expect(cases).toMatchObject([{ sheet: 'counter-02', number: 'A-2026-0001', status: 'ruled out', photos: 0 }]),
    misses: null,
  },
  'cases.open': {
    asks: { sheet: 'counter-02' },
    gives: ({ number, history }) => {
      expect(number).toBe('A-2026-0001');
      expect(history.map(({ verdict }) => verdict.kind)).toEqual(['verdict']);
    },
    misses: [{ sheet: 'found-01' }, 'not-found'],
  },
  'cases.describe': {
    asks: { sheet: 'counter-02', customer: 'Pilot station', lookedBy: 'Marit', notes: 'Wants it back on Friday.', madeAgainst: noWords },
    gives: (file) => expect(file).toMatchObject({ customer: 'Pilot station', lookedBy: 'Marit' }),
    misses: [{ sheet: 'found-01', customer: '', lookedBy: '', notes: '', madeAgainst: noWords }, 'not-found'],
  },
  'cases.say': {
    asks: { sheet: 'counter-02', word: saidOfIt, who: 'Marit', madeAgainst: null },
    gives: ({ words }) => expect(words).toMatchObject([{ who: 'Marit', word: saidOfIt }]),
    misses: [{ sheet: 'found-01', word: null, madeAgainst: null }, 'not-found'],
  },
  'cases.word': {
    asks: { sheet: 'counter-02' },
    gives: (word) => expect(word).toBeNull(),
    misses: null,
  },
  'cases.before': {
    asks: { sheet },
    gives: (before) => expect(before).toEqual({ same: [], more: 0 }),
    misses: null,
  },
  'cases.changes': {
    asks: { sheet: 'counter-02', entry: 0 },
    gives: ({ names, entries }) => expect({ names, entries }).toEqual({ names: [], entries: [] }),
    misses: [{ sheet: 'counter-02', entry: 7 }, 'not-found'],
  },
  'cases.csv': {
    asks: {},
    gives: (csv) => expect(csv.split('\r\n')).toHaveLength(3),
    misses: null,
  },
  'retold.start': { asks: {}, gives: ({ token }) => expect(token).not.toBe(''), misses: null },
  'retold.progress': {
    asks: { token: 'none' },
    askedAfter: ofRetold,
    gives: (stands) => expect(['running', 'done']).toContain(stands.state),
    misses: [{ token: 'none' }, 'not-found'],
  },
  'retold.cancel': {
    asks: { token: 'none' },
    askedAfter: ofRetold,
    gives: (nothing) => expect(nothing).toBeNull(),
    misses: [{ token: 'none' }, 'not-found'],
  },
  'cases.leave': {
    asks: { sheet: 'counter-02', entry: 1, otherwise: 'a'.repeat(64), reason: 'The customer has it.', who: 'Marit' },
    gives: ({ left }) => expect(left).toMatchObject([{ who: 'Marit', reason: 'The customer has it.', entry: 1 }]),
    misses: [{ sheet: 'found-01', entry: 1, otherwise: 'a'.repeat(64), reason: 'x' }, 'not-found'],
  },
  'parcel.write': {
    asks: { sheet: 'counter-02' },
    gives: ({ name, parts }) => expect([name, parts]).toEqual(['case-A-2026-0001.zip', 1]),
    misses: [{ sheet: 'found-01' }, 'not-found'],
  },
  'parcel.part': {
    asks: { token: noToken, part: 0 },
    askedAfter: ofParcel,
    gives: ({ data }) => expect(Buffer.from(data, 'base64').toString('latin1', 0, 2)).toBe('PK'),
    misses: [{ token: noToken, part: 0 }, 'not-found'],
  },
  'parcel.handIn': {
    asks: { token: null, name: 'case.zip', data: 'UEsDBA==' },
    gives: ({ bytes }) => expect(bytes).toBe(4),
    misses: [{ token: noToken, name: 'case.zip', data: 'UEsDBA==' }, 'not-found'],
  },
  'parcel.look': {
    asks: { token: noToken },
    askedAfter: ofHandedIn,
    gives: ({ number, here }) => expect([number, here?.number]).toEqual(['A-2026-0001', 'A-2026-0001']),
    misses: [{ token: noToken }, 'not-found'],
  },
  'parcel.takeIn': {
    asks: { token: noToken, as: 'taken-in', who: 'Marit' },
    askedAfter: ofHandedIn,
    gives: ({ sheet, number }) => expect([sheet, number]).toEqual(['taken-in', 'A-2026-0002']),
    misses: [{ token: noToken, as: null }, 'not-found'],
  },
  'packs.begin': {
    asks: { with: 'invented' },
    askedAfter: async (asks, ask) => {
      await ask('packs.takeOut', await ofHeldPack({}, ask));
      return asks;
    },
    gives: (titles) => expect(titles).toEqual(['A small atlas for the tests of the store']),
    misses: [{ with: 'invented' }, 'already-begun'],
  },
  'packs.held': {
    asks: {},
    gives: ({ held, shipped }) => {
      expect(held).toMatchObject([{ id: 'small', invented: true, counts: { models: 5, samples: 2 }, neededBy: [] }]);
      expect(shipped, 'it is held').toEqual([]);
    },
    misses: null,
  },
  'packs.putIn': {
    asks: { id: 'small' },
    gives: ({ id, changed }) => expect([id, changed]).toEqual(['small', false]),
    misses: [{ id: 'heron' }, 'not-found'],
  },
  'packs.takeOut': {
    asks: { id: '?', madeAgainst: none },
    askedAfter: ofHeldPack,
    gives: (nothing) => expect(nothing).toBeNull(),
    misses: [{ id: 'small', madeAgainst: none }, 'changed-since'],
  },
  'packs.handIn': {
    asks: { token: null, path: 'small/pack.json', data: 'e30=' },
    gives: ({ bytes }) => expect(bytes).toBe(2),
    misses: [{ token: noToken, path: 'small/pack.json', data: 'e30=' }, 'not-found'],
  },
  'packs.look': {
    asks: { token: noToken },
    askedAfter: ofBroughtPack,
    gives: (looked) => expect(looked).toMatchObject({ sound: true, pack: { id: 'small', changed: false }, leftAlone: [] }),
    misses: [{ token: noToken }, 'not-found'],
  },
  'packs.bring': {
    asks: { token: noToken },
    askedAfter: ofBroughtPack,
    gives: (loaded) => expect(loaded).toMatchObject({ id: 'small', changed: false, replaced: null }),
    misses: [{ token: noToken }, 'not-found'],
  },
  'packs.leave': { asks: { token: noToken }, gives: (nothing) => expect(nothing).toBeNull(), misses: null },
  'packs.write': {
    asks: { id: 'small' },
    gives: ({ name, parts }) => expect([name, parts]).toEqual(['small-2026-03-02.zip', 1]),
    misses: [{ id: 'heron' }, 'not-found'],
  },
  'packs.part': {
    asks: { token: noToken, part: 0 },
    askedAfter: ofWrittenPack,
    gives: ({ data }) => expect(Buffer.from(data, 'base64').toString('latin1', 0, 2)).toBe('PK'),
    misses: [{ token: noToken, part: 0 }, 'not-found'],
  },
  'photos.add': {
    asks: {
      sheet: 'counter-02',
      name: 'wheel.jpg',
      data: jpeg.toString('base64'),
      thumbnail: png.toString('base64'),
      caption: 'the wheel, as received',
      about: { kind: 'observation', observation: 'o1' },
    },
    gives: (photos) => expect(photos).toMatchObject([{ type: 'image/jpeg', width: 16, height: 12, about: { observation: 'o1' } }]),
    misses: [
      { sheet: 'counter-02', name: 'wheel.tiff', data: 'SUkqAA==', thumbnail: 'SUkqAA==', caption: '', about: null },
      'photo-unreadable',
    ],
  },
  'photos.describe': {
    asks: { sheet: 'counter-02', photo: '?', caption: 'nose', about: { kind: 'slot', slot: 'compressor-wheel' }, madeAgainst: none },
    askedAfter: ofSaidPhoto,
    gives: (photos) => expect(photos).toMatchObject([{ caption: 'nose', about: { slot: 'compressor-wheel' } }]),
    misses: [{ sheet: 'counter-02', photo: none, caption: '', about: null, madeAgainst: none }, 'not-found'],
  },
  'photos.remove': {
    asks: { sheet: 'counter-02', photo: '?', madeAgainst: none },
    askedAfter: ofSaidPhoto,
    gives: (photos) => expect(photos).toEqual([]),
    misses: [{ sheet: 'counter-02', photo: none, madeAgainst: none }, 'not-found'],
  },
  'photos.read': {
    asks: { photo: '?', which: 'thumbnail' },
    askedAfter: ofPhoto,
    gives: ({ type, data }) => {
      expect(type).toBe('image/png');
      expect(Buffer.from(data, 'base64').subarray(1, 4).toString('latin1')).toBe('PNG');
    },
    misses: [{ photo: '0'.repeat(64), which: 'whole' }, 'not-found'],
  },
  'compare.models': {
    asks: { a: 'petrel-13', b: 'tern-4' },
    gives: ({ a, differences }) => {
      expect(a).toBe('Merrowby Petrel 13 Cartridge');
      expect(differences).toBeGreaterThan(0);
    },
    misses: [{ a: 'petrel-13', b: 'heron-1' }, 'not-found'],
  },
};
const names = Object.keys(contract) as CallName[];
const hostile: readonly unknown[] = [undefined, null, 7, 'x', [], [{}], { id: 7 }, { id: '' }, { sheet: 1 }, { __proto__: null, more: 1 }];

const opened = async (file: string): Promise<Store> => {
  const now = () => new Date('2026-03-04T12:00:00.000Z');
  const store = await openStore(file, { expandCode: expandForPacks, now, backups: { folder: `${file}-backups` } });
  if (!store.ok) throw new Error(store.trouble.sentence);
  return store.value;
};

/** The ways to every text of a value. */
const textsIn = (value: unknown): (string | number)[][] => {
  if (typeof value === 'string') return [[]];
  if (typeof value !== 'object' || value === null) return [];
  const steps: [string | number, unknown][] = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
  return steps.flatMap(([step, inner]) => textsIn(inner).map((path) => [step, ...path]));
};

/** The value with half a surrogate pair behind one of its texts. */
const withHalf = (value: unknown, [step, ...rest]: readonly (string | number)[]): unknown => {
  if (step === undefined) return `${value}\ud800`;
  if (Array.isArray(value)) return value.map((inner, i) => (i === step ? withHalf(inner, rest) : inner));
  return { ...(value as object), [step]: withHalf((value as Record<string, unknown>)[step], rest) };
};

let folder: string;
let copies = 0;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'kinplate-contract-'));
  const store = await opened(path.join(folder, 'filled.sqlite'));
  const loaded = await store.packs.load(smallPack);
  if (!loaded.ok) throw new Error(loaded.trouble.sentence);
  await keepSheet(store, { ...sheet, id: asId('counter-02') });
  await store.close();
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe.each(Object.entries(transports))('over %s', (_name, open) => {
  let store: Store;
  let transport: Transport;
  let bugs: unknown[];

  const begin = async () => {
    // Filling an atlas takes longer than any call: it is filled once, and every test that changes something has a copy.
    const file = path.join(folder, `atlas-${copies++}.sqlite`);
    await copyFile(path.join(folder, 'filled.sqlite'), file);
    await rm(path.join(folder, 'signing-key.pem'), { force: true });
    store = await opened(file);
    bugs = [];
    transport = await open(staffOf(openDesk(store, undefined, undefined, path.dirname(smallPack)), (...bug) => bugs.push(bug)));
  };
  const end = async () => {
    await transport.close();
    await store.close();
  };
  const noBugs = () => expect(bugs, 'no call ran into a bug').toEqual([]);

  const ask = (name: CallName, args: unknown): Promise<Reply<CallName>> => transport.bridge.ask(name, args as CallArgs<CallName>);

  describe('what is refused, or is not there, changes nothing, so one atlas will do', () => {
    beforeAll(begin);
    afterAll(end);
    afterEach(noBugs);

    test.each(names)('[R2] %s refuses what its schema does not read, and changes nothing', async (name) => {
      const before = await store.sheets.list();
      for (const args of hostile) {
        const reply = await ask(name, args);
        expect(reply.ok, JSON.stringify(args)).toBe(false);
        if (!reply.ok) expect(reply.trouble.code).toBe('malformed');
      }
      const extra = { ...(examples[name] as Example<CallName>).asks, more: 1 };
      expect(await ask(name, extra)).toMatchObject({ ok: false, trouble: { code: 'malformed' } });
      expect(await store.sheets.list()).toEqual(before);
    });

    test.each(names)('[R6] %s refuses half a surrogate pair in any of its texts and keys, and says where', async (name) => {
      const { asks } = examples[name] as Example<CallName>;
      for (const path of textsIn(asks)) {
        const reply = await ask(name, withHalf(asks, path));
        expect(reply).toMatchObject({ ok: false, trouble: { code: 'malformed', place: path.join('.') } });
        if (!reply.ok) expect(reply.trouble.sentence).toContain('half a surrogate pair');
      }
      expect(await ask(name, { ...asks, 'more\ud800': 1 })).toMatchObject({ ok: false, trouble: { code: 'malformed' } });
    });

    test.each(names.filter((name) => examples[name].misses !== null))('[T1] %s says what is not there, in a sentence', async (name) => {
      const [asks, code] = (examples[name] as Example<CallName>).misses as [unknown, string];
      const reply = await ask(name, asks);
      expect(reply).toMatchObject({ ok: false, trouble: { code } });
      if (!reply.ok) expect(reply.trouble.sentence).toMatch(/\w .*[.)]$/s);
    });

    test('[R6] a call of values within values is taken to the last depth there may be, and refused before it is parsed beyond', async () => {
      const nested = (depth: number) => JSON.parse(`${'['.repeat(depth)}${']'.repeat(depth)}`) as unknown;
      const deepest = await ask('atlas.search', nested(limits.jsonDepth));
      expect(deepest).toMatchObject({ ok: false, trouble: { code: 'malformed' } });
      if (!deepest.ok) expect(deepest.trouble.sentence).not.toContain('deep');
      const deeper = await ask('atlas.search', nested(limits.jsonDepth + 1));
      expect(deeper).toMatchObject({ ok: false, trouble: { sentence: 'The call holds values within values, more than 50 deep.' } });
      expect(await ask('atlas.search', nested(500))).toEqual(deeper);
    });
  });

  describe('what is answered', () => {
    beforeEach(begin);
    afterEach(async () => {
      await end();
      noBugs();
    });

    test.each(names)('[R2] %s answers, and what it answers crosses whole: plain JSON, nothing lost', async (name) => {
      const { asks, gives, askedAfter } = examples[name] as Example<CallName>;
      const reply = await ask(name, askedAfter ? await askedAfter(asks, ask) : asks);
      if (!reply.ok) throw new Error(`${reply.trouble.code}: ${reply.trouble.sentence}`);
      gives(reply.value);
      expect(JSON.parse(JSON.stringify(reply))).toStrictEqual(reply);
    });

    test('[R2] a sheet is saved, reopened as it was, changed and removed', async () => {
      const told = async <C extends CallName>(name: C, args: CallArgs<C>): Promise<CallResult<C>> => {
        const reply = await ask(name, args);
        if (!reply.ok) throw new Error(reply.trouble.sentence);
        return reply.value as CallResult<C>;
      };
      const saved = await told('sheets.save', { sheet, who: 'Marit', madeAgainst: null });
      const opened = await told('sheets.open', { id: sheet.id });
      expect(opened).toMatchObject({ sheet, version: saved.version, saved: { at: saved.savedAt, who: 'Marit', number: 'A-2026-0002' } });
      const changed = { ...sheet, title: 'The same, looked at again', observations: sheet.observations.slice(0, 1) };
      expect(await told('sheets.save', { sheet: changed, madeAgainst: opened.version })).toMatchObject({ observations: 1 });
      const again = await told('sheets.open', { id: sheet.id });
      expect(again.sheet).toEqual(changed);
      expect(await ask('sheets.remove', { id: sheet.id, madeAgainst: opened.whole ?? none })).toMatchObject({
        ok: false,
        trouble: { code: 'changed-since' },
      });
      expect(await ask('sheets.remove', { id: sheet.id, madeAgainst: again.whole ?? none })).toEqual({ ok: true, value: null });
      expect(await ask('sheets.open', { id: sheet.id })).toMatchObject({ ok: false, trouble: { code: 'not-found' } });
    });

    test('[H5] whoever saves or removes what is kept says what version he read: left out, or no version, it is refused at the door', async () => {
      const words = { sheet: 'counter-02', customer: '', lookedBy: '', notes: '' };
      const asked: readonly (readonly [CallName, object])[] = [
        ['sheets.save', { sheet }],
        ['sheets.remove', { id: 'counter-02' }],
        ['cases.describe', words],
        ['photos.describe', { sheet: 'counter-02', photo: none, caption: '', about: null }],
        ['photos.remove', { sheet: 'counter-02', photo: none }],
        ['drills.saveCourse', { name: 'All', families: null, kinds: null, newPerDay: 5 }],
        ['drills.removeCourse', { id: 'c' }],
        ['settings.save', { setting: { key: 'people', value: { names: ['Ines'] } } }],
        ['settings.setLogo', { logo: null }],
        ['stock.save', { line: onTheShelf }],
        ['stock.remove', { line: 'l' }],
        ['prices.set', { part: 'p', price: null }],
        ['packs.takeOut', { id: 'small' }],
      ];
      const fresh: readonly CallName[] = [
        'sheets.save',
        'drills.saveCourse',
        'settings.save',
        'settings.setLogo',
        'stock.save',
        'prices.set',
      ];
      for (const [name, args] of asked) {
        for (const wrong of [
          {},
          { madeAgainst: none.slice(1) },
          { madeAgainst: 'newest' },
          ...(fresh.includes(name) ? [] : [{ madeAgainst: null }]),
        ])
          expect(await ask(name, { ...args, ...wrong }), `${name} ${JSON.stringify(wrong)}`).toMatchObject({
            ok: false,
            trouble: { code: 'malformed', place: 'madeAgainst' },
          });
      }
    });

    test('[H5] a note typed in one window stays when the other saves the same case with its note empty', async () => {
      const words = { sheet: 'counter-02', customer: '', lookedBy: '', notes: '' };
      const noted = await ask('cases.describe', { ...words, notes: 'The oil feed is blocked.', madeAgainst: noWords });
      expect(noted).toMatchObject({
        ok: true,
        value: { version: versionOf({ customer: '', lookedBy: '', notes: 'The oil feed is blocked.' }) },
      });
      expect(await ask('cases.describe', { ...words, customer: 'Pilot station', madeAgainst: noWords })).toMatchObject({
        ok: false,
        trouble: { code: 'changed-since' },
      });
      expect(await ask('cases.open', { sheet: 'counter-02' })).toMatchObject({ ok: true, value: { notes: 'The oil feed is blocked.' } });
    });

    test('[R2] the largest photograph crosses whole in both directions; one byte more is refused by its size, in words', async () => {
      // Zeros between the picture and its end are part of the scan, so the file is a whole one of the very size.
      const end = jpeg.length - 2;
      const sized = (bytes: number) => Buffer.concat([jpeg.subarray(0, end), Buffer.alloc(bytes - jpeg.length), jpeg.subarray(end)]);
      const add = (bytes: Buffer) => ({
        sheet: 'counter-02',
        name: 'large.jpg',
        data: bytes.toString('base64'),
        thumbnail: png.toString('base64'),
        caption: '',
        about: null,
      });
      const largest = sized(mostPhotoBytes);
      const added = await ask('photos.add', add(largest));
      if (!added.ok) throw new Error(added.trouble.sentence);
      const [photo] = added.value as CallResult<'photos.add'>;
      const read = await ask('photos.read', { photo: photo?.id, which: 'whole' });
      if (!read.ok) throw new Error(read.trouble.sentence);
      const stored = Buffer.from((read.value as CallResult<'photos.read'>).data, 'base64');
      expect(createHash('sha256').update(stored).digest('hex')).toBe(photo?.id);
      expect(stored.subarray(stored.length - 1000).equals(largest.subarray(largest.length - 1000))).toBe(true);
      expect(await ask('photos.add', add(sized(mostPhotoBytes + 1)))).toMatchObject({ ok: false, trouble: { code: 'photo-too-large' } });
      // Far beyond, it is turned away before it is decoded; over HTTP, before it is read.
      expect((await ask('photos.add', add(Buffer.alloc(16 * 1024 * 1024)))).ok).toBe(false);
    });

    test('[O6] a contradictory sheet is answered with its contradictions, and no name of it is explained', async () => {
      const [first] = sheet.observations;
      if (first === undefined) throw new Error('the sheet has no observations');
      const other = { ...first, id: asId('o9'), value: { kind: 'count', from: 5, to: 5 } };
      const torn = { ...sheet, observations: [...sheet.observations, other] };
      expect(await ask('verdict.of', { sheet: torn })).toMatchObject({ ok: true, value: { kind: 'contradiction' } });
      expect(await ask('verdict.explain', { sheet: torn, name: 'model:petrel-13' })).toMatchObject({
        ok: false,
        trouble: { code: 'contradiction' },
      });
    });

    test('[F4] a search answers with every build worth having, or with what it had when it was stopped', async () => {
      const { token } = await ofSearch(null, ask);
      let reply = await ask('build.progress', { token });
      while (reply.ok && (reply.value as SearchState).state === 'running') {
        // Not every transport leaves the event loop, and the search needs its turns.
        await new Promise(setImmediate);
        reply = await ask('build.progress', { token });
      }
      expect(reply).toMatchObject({ ok: true, value: { state: 'done', completion: { complete: true, stopped: null } } });
      expect(await ask('build.progress', { token }), 'it may be asked for again').toEqual(reply);
    });

    test('[R2] a pack loaded while the window is open is in the next verdict', async () => {
      const before = await ask('verdict.of', { sheet });
      const removed = await store.packs.remove('small');
      expect(removed.ok).toBe(true);
      expect(await ask('verdict.of', { sheet })).toMatchObject({ ok: false, trouble: { code: 'sheet-unknown' } });
      await store.packs.load(smallPack);
      expect(await ask('verdict.of', { sheet })).toEqual(before);
    });
  });
});

describe('by the workers that answer in the program', () => {
  let data: string;
  let staff: Staff;
  let transport: Transport;
  let bugs: unknown[];
  let before: string;

  const begin = async () => {
    data = path.join(folder, `data-${copies++}`);
    await mkdir(data);
    await copyFile(path.join(folder, 'filled.sqlite'), path.join(data, 'atlas.sqlite'));
    bugs = [];
    const opened = await openStaff({
      data,
      packs: path.dirname(smallPack),
      program: await builtWorker(),
      tell: () => {},
      logBug: (...bug) => bugs.push(bug),
    });
    if (!opened.ok) throw new Error(opened.trouble.sentence);
    staff = opened.value;
    transport = await (transports['Electron IPC'] as (typeof transports)[string])(staff);
    before = await kept();
  };
  const end = async () => {
    await transport.close();
    await staff.close();
  };
  /** All that stands in the data folder but its logs: names, and what the atlas and its journal hold. */
  const kept = async (): Promise<string> => {
    // What was read of the atlas is put beside it when nobody waits, and is no record (R8).
    const names = (await readdir(data, { recursive: true })).filter((name) => !/^(logs|kept-reading-)/.test(name)).sort();
    const written = names.filter((name) => /^atlas\.sqlite(-wal)?$/.test(name));
    const hash = createHash('sha256').update(names.join());
    for (const name of written) hash.update(await readFile(path.join(data, name)));
    return hash.digest('hex');
  };

  beforeAll(begin);
  afterAll(end);
  // Opening workers takes longer than any call: they stay, and what a call wrote is undone under them.
  afterEach(async () => {
    if ((await kept()) === before) return;
    for (const name of await readdir(data))
      if (!/^(atlas\.sqlite.*|logs|kept-reading-.*)$/.test(name)) await rm(path.join(data, name), { recursive: true });
    await putBack(path.join(folder, 'filled.sqlite'), path.join(data, 'atlas.sqlite'));
    before = await kept();
  });

  const answered = async (name: CallName): Promise<void> => {
    const ask = (each: CallName, args: unknown) => transport.bridge.ask(each, args as CallArgs<CallName>);
    const { asks, askedAfter } = examples[name] as Example<CallName>;
    const reply = await ask(name, askedAfter ? await askedAfter(asks, ask) : asks);
    expect(bugs).toEqual([]);
    expect(reply).toMatchObject({ ok: true });
  };
  const keeps = (name: CallName): boolean => contract[name].room === 'store' || examples[name].askedAfter !== undefined;

  test.each(names.filter((name) => !keeps(name)))('[B1] [R2] %s is answered by one that can, and nothing is written', async (name) => {
    await answered(name);
    expect(await kept()).toBe(before);
  });

  test.each(names.filter(keeps))('[B1] [R2] %s is answered by one that can: no atlas is compiled by the writer', answered);
});

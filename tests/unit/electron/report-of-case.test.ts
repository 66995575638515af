import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openStore, type Store } from '../../../db/index.ts';
import type { CallArgs, CallName, CallResult } from '../../../electron/bridge/contract.ts';
import { receive } from '../../../electron/bridge/receive.ts';
import { openDesk } from '../../../electron/desk/open-desk.ts';
import { expandForPacks } from '../../../electron/desk/open-house.ts';
import type { ObservationId, Sheet, SheetId } from '../../../reasoner/index.ts';
import { readPdf } from '../report/read-pdf.ts';
import { smallJpeg, smallPng } from '../report/small-pictures.ts';

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');
let store: Store;
beforeEach(async () => {
  const opened = await openStore(':memory:', { expandCode: expandForPacks });
  if (!opened.ok) throw new Error(opened.trouble.sentence);
  store = opened.value;
  await store.packs.load(smallPack);
});
afterEach(() => store.close());

const ask = async <C extends CallName>(name: C, args: CallArgs<C>): Promise<CallResult<C>> => {
  const reply = await receive(openDesk(store), name, args, (_, error) => {
    throw error;
  });
  if (!reply.ok) throw new Error(`${reply.trouble.code}: ${reply.trouble.sentence}`);
  return reply.value as CallResult<C>;
};

const kept = async (): Promise<Sheet> => {
  const { sheet: sample } = await ask('sheets.open', { id: 'found-01' });
  const sheet = { ...sample, id: 'counter-07' as SheetId };
  await ask('sheets.save', { sheet, who: 'Ines', madeAgainst: null });
  const { version: madeAgainst } = await ask('cases.open', { sheet: sheet.id });
  await ask('cases.describe', { sheet: sheet.id, customer: 'Harbour pilot', lookedBy: 'Ines', notes: 'pays late', madeAgainst });
  const picture = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');
  const [first] = sheet.observations;
  await ask('photos.add', {
    sheet: sheet.id,
    name: 'inlet.jpg',
    data: picture(smallJpeg),
    thumbnail: picture(smallJpeg),
    caption: 'from the inlet',
    about: { kind: 'observation', observation: first?.id ?? '' },
  });
  await ask('photos.add', {
    sheet: sheet.id,
    name: 'plate.png',
    data: picture(smallPng),
    thumbnail: picture(smallJpeg),
    caption: '',
    about: null,
  });
  return sheet;
};

describe('the report of a case', () => {
  test('[P10] stands under the shop’s letterhead, on paper too; without one, and for every other line with one, it is the same', async () => {
    const sheet = await kept();
    const before = await ask('report.of', { sheet });
    expect('letterhead' in before).toBe(false);
    const bare = Buffer.from((await ask('report.pdf', { sheet })).data, 'base64');
    const setting = { key: 'letterhead', value: { name: 'Saltmarsh Rotor & Fuel', lines: ['Quay 4', 'Port Hallow'] } } as const;
    const madeAgainst = await ask('settings.save', { setting, madeAgainst: null });
    const { logo } = await ask('settings.setLogo', {
      logo: { name: 'sign.png', data: Buffer.from(smallPng).toString('base64') },
      madeAgainst,
    });
    const { letterhead, ...report } = await ask('report.of', { sheet });
    expect(report).toEqual(before);
    expect(letterhead).toMatchObject({ ...setting.value, logo: { file: logo?.file } });
    const headed = Buffer.from((await ask('report.pdf', { sheet })).data, 'base64');
    const words = async (pdf: Buffer) => (await readPdf(pdf)).text.join(' ').replace(/\s+/g, ' ');
    expect(await words(headed)).toContain('Saltmarsh Rotor & Fuel Quay 4 Port Hallow');
    const pictures = (pdf: Buffer) => pdf.toString('latin1').split('/Subtype /Image').length;
    expect(pictures(headed)).toBeGreaterThan(pictures(bare));
  });

  test('[P6] [W1] says what was decided in a section of its own, on paper too, and changes no word of the program’s for it', async () => {
    const sheet = await kept();
    const before = await ask('report.of', { sheet });
    expect(before.sections.map(({ id }) => id)).not.toContain('shop-word');
    const word = { by: 'maker', person: 'Osk', day: '2026-03-10', decision: 'The plate is theirs.', ground: 'their letter' } as const;
    await ask('cases.say', { sheet: sheet.id, word, who: 'Ines', madeAgainst: null });
    const report = await ask('report.of', { sheet });
    const own = report.sections.findIndex(({ id }) => id === 'shop-word');
    expect(report.sections[own - 1]?.id).toBe('ticket');
    expect({ ...report, sections: report.sections.filter((_, index) => index !== own) }).toEqual(before);
    const said = [
      'The maker’s decision, as told to the shop',
      'The maker’s decision as told to the shop by Osk, decided on 10 March 2026: “The plate is theirs.”',
      'The ground given for it: their letter.',
      'It was decided beside the verdict. The verdict and the words for the ticket are the program’s, and are not changed by it.',
    ];
    const section = report.sections[own];
    expect([
      section?.heading,
      ...(section?.blocks ?? []).map((block) => (block.kind === 'paragraph' ? block.line.text : block.kind)),
    ]).toEqual(said);
    const { text } = await readPdf(Buffer.from((await ask('report.pdf', { sheet })).data, 'base64'));
    const paper = text.join(' ').replace(/\s+/g, ' ');
    for (const line of said) expect(paper).toContain(line);
    const last = (await ask('cases.open', { sheet: sheet.id })).words.at(-1);
    await ask('cases.say', { sheet: sheet.id, word: null, who: 'Ines', madeAgainst: last?.version ?? null });
    expect(await ask('report.of', { sheet }), 'taken back, it is said no more').toEqual(before);
  });

  test('[W1] has its number, customer, looker and photographs, and nothing of the shop’s own notes', async () => {
    const sheet = await kept();
    const report = await ask('report.of', { sheet });
    const head = new Map(report.head.map(({ label, line }) => [label, line.text]));
    expect(head.get('Case')).toMatch(/^A-\d{4}-0001$/);
    expect(head.get('Customer')).toBe('Harbour pilot');
    expect(head.get('Looked at by')).toBe('Ines');
    expect(JSON.stringify(report)).not.toContain('pays late');
    const photographs = report.sections.flatMap(({ blocks }) =>
      blocks.flatMap((block) => (block.kind === 'photographs' ? block.photographs : [])),
    );
    expect(photographs.map(({ caption }) => caption.text)).toEqual([expect.stringMatching(/^1\. .+\. from the inlet$/), '2']);

    const bytes = Buffer.from((await ask('report.pdf', { sheet })).data, 'base64');
    const { text } = await readPdf(bytes);
    expect(text.join('\n')).toContain('from the inlet');
    expect(text.join('\n')).not.toMatch(/cannot be read|not kept/);
    expect(bytes.toString('latin1').match(/\/Subtype \/Image/g)?.length).toBeGreaterThanOrEqual(2);
  });

  test('[W1] a photograph of an entry that was taken back keeps its caption and claims nothing of the entry', async () => {
    const sheet = await kept();
    const [first, ...rest] = sheet.observations;
    const report = await ask('report.of', { sheet: { ...sheet, observations: rest } });
    const photographs = report.sections.flatMap(({ blocks }) =>
      blocks.flatMap((block) => (block.kind === 'photographs' ? block.photographs : [])),
    );
    expect(photographs[0]?.caption).toEqual({ text: '1. from the inlet', because: [{ kind: 'photograph', index: 0 }] });
    const named = (report.sections.flatMap(({ blocks }) => JSON.stringify(blocks)).join() as string).includes(
      `"${first?.id as ObservationId}"`,
    );
    expect(named).toBe(false);
  });
});

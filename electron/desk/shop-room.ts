import { pricesCsv, type Store, stockCsv } from '../../db/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { well } from '../bridge/reply.ts';

/** What the shop says of itself. Bytes are base64 on the bridge and nowhere else. */
export const settingsCalls = ({ settings }: Store): Calls<'settings'> => ({
  'settings.all': () => settings.all(),
  'settings.save': ({ setting, who, madeAgainst }) =>
    setting.key === 'letterhead'
      ? settings.save(setting.key, { ...setting.value, logo: null }, who, madeAgainst)
      : settings.save(setting.key, setting.value, who, madeAgainst),
  'settings.setLogo': ({ logo, who, madeAgainst }) =>
    settings.setLogo(logo === null ? null : { name: logo.name, bytes: Buffer.from(logo.data, 'base64') }, who, madeAgainst),
  'settings.logo': async () => {
    const found = await settings.logo();
    return found.ok ? well({ type: found.value.type, data: found.value.bytes.toString('base64') }) : found;
  },
});

/** What lies on the shop's shelves. */
export const stockCalls = ({ stock }: Store): Calls<'stock'> => ({
  'stock.list': () => stock.list(),
  'stock.of': ({ part }) => stock.of([part], ''),
  'stock.history': ({ line }) => stock.history(line),
  'stock.save': ({ id = null, line, who, madeAgainst }) => stock.save(id, line, { who, madeAgainst }),
  'stock.take': ({ line, many, who }) => stock.take(line, many, who),
  'stock.remove': ({ line, who, madeAgainst }) => stock.remove(line, { who, madeAgainst }),
  'stock.csv': async () => {
    const lines = await stock.list();
    return lines.ok ? well(stockCsv(lines.value)) : lines;
  },
  'stock.lookAtTable': ({ text, file }) => stock.lookAtTable(text, file),
  'stock.takeInTable': ({ text, file, who }) => stock.takeInTable(text, file, who),
});

/** What the shop asks for parts. */
export const priceCalls = ({ prices }: Store): Calls<'prices'> => ({
  'prices.list': () => prices.list(),
  'prices.of': ({ part }) => prices.of(part),
  'prices.set': ({ part, price, who, madeAgainst }) => prices.set(part, price, who, madeAgainst),
  'prices.history': ({ part }) => prices.history(part),
  'prices.csv': async () => {
    const listed = await prices.list();
    return listed.ok ? well(pricesCsv(listed.value)) : listed;
  },
  'prices.lookAtTable': ({ text, file }) => prices.lookAtTable(text, file),
  'prices.takeInTable': ({ text, file, who }) => prices.takeInTable(text, file, who),
});

/** Papers beside sources and parts. Bytes are base64 on the bridge and nowhere else. */
export const documentCalls = ({ documents }: Store): Calls<'documents'> => ({
  'documents.of': ({ about }) => documents.of(about),
  'documents.add': ({ about, name, title, data, who }) => documents.add(about, { name, title, bytes: Buffer.from(data, 'base64') }, who),
  'documents.remove': ({ about, file }) => documents.remove(about, file),
  'documents.read': async ({ file }) => {
    const found = await documents.bytes(file);
    return found.ok ? well({ type: found.value.type, data: found.value.bytes.toString('base64') }) : found;
  },
});

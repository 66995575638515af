import { type Store, stockCsv } from '../../db/index.ts';
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

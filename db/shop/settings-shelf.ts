import { eq } from 'drizzle-orm';
import { limits } from '../../reasoner/plain/limits.ts';
import type { Door } from '../driver/door.ts';
import type { Guard, Reader } from '../driver/driver.ts';
import { checkMadeAgainst, type MadeAgainst } from '../driver/made-against.ts';
import { build, statementOf } from '../driver/statements.ts';
import { type Version, versionOf } from '../driver/version.ts';
import { cleanPhoto } from '../photos/clean-photo.ts';
import * as t from '../schema.ts';
import { done, failed, type Outcome, TroubleError, trouble } from '../trouble.ts';
import { type FileBytes, fileBytes, fileIdOf, fileKept } from './kept-files.ts';
import { type KeptSetting, type KeptSettings, type Letterhead, type Logo, type SettingKey, type ShopSettings, unsaid } from './settings.ts';

/** A picture for the head of what is printed, on its way in. */
export interface LogoToKeep {
  /** What troubles call it. */
  readonly name: string;
  readonly bytes: Buffer;
}

/** What the shop says of itself. Each key is versioned by itself (H5). */
export interface SettingsShelf {
  all(): Promise<Outcome<KeptSettings>>;
  /**
   * Saves one. `changed-since` when it was made against another state than the one that is there. Of a letterhead the picture stays what it is.
   * @returns the version of what is then there
   */
  save<Key extends SettingKey>(
    key: Key,
    value: NonNullable<ShopSettings[Key]>,
    who: string,
    madeAgainst?: MadeAgainst,
  ): Promise<Outcome<Version>>;
  /** Puts a picture into the letterhead, cleaned as photographs are, or takes it out. Troubles: `photo-unreadable`, `photo-damaged`, `photo-too-large`, `changed-since`. */
  setLogo(logo: LogoToKeep | null, who: string, madeAgainst?: MadeAgainst): Promise<Outcome<Letterhead>>;
  /** The picture of the letterhead; `not-found` without one, `photo-altered` where it is no longer what was saved. */
  logo(): Promise<Outcome<FileBytes>>;
}

export const settingsShelf = ({ read, write, now }: Door): SettingsShelf => {
  const save = async <Key extends SettingKey>(
    key: Key,
    who: string,
    madeAgainst: MadeAgainst,
    valueOver: (held: ShopSettings[Key]) => NonNullable<ShopSettings[Key]>,
    file: { readonly id: Logo['file']; readonly type: string; readonly bytes: Buffer } | null = null,
  ): Promise<Outcome<NonNullable<ShopSettings[Key]>>> => {
    const at = now().toISOString();
    return write(async (reader) => {
      const held = await heldSetting(reader, key);
      const value = valueOver(held ?? unsaid[key]);
      checkMadeAgainst(madeAgainst, held, `settings ${key}`, names[key], value);
      const row = { key, value, at, who };
      return {
        batch: {
          guards: [settingIsAsRead(key, held)],
          statements: [
            ...(file === null ? [] : [fileKept(file.id, file.type, file.bytes)]),
            statementOf(build.insert(t.shopSettings).values(row).onConflictDoUpdate({ target: t.shopSettings.key, set: row })),
          ],
        },
        value,
      };
    });
  };
  return {
    all: () => read(allSettings),
    save: async (key, value, who, madeAgainst) => {
      const saved = await save(key, who, madeAgainst, (held) =>
        key === 'letterhead' ? ({ ...value, logo: (held as Letterhead).logo } as typeof value) : value,
      );
      return saved.ok ? done(versionOf(saved.value)) : saved;
    },
    setLogo: async (logo, who, madeAgainst) => {
      if (logo === null) return save('letterhead', who, madeAgainst, (held) => ({ ...held, logo: null }));
      const cleaned = cleanedLogo(logo);
      if (!cleaned.ok) return cleaned;
      const { file, type, width, height, bytes } = cleaned.value;
      return save('letterhead', who, madeAgainst, (held) => ({ ...held, logo: { file, type, width, height } }), { id: file, type, bytes });
    },
    logo: () =>
      read(async (reader) => {
        const { value } = (await allSettings(reader)).letterhead;
        if (value.logo === null) throw new TroubleError(trouble('not-found', 'letterhead', 'The letterhead has no picture.'));
        return await fileBytes(reader, value.logo.file, 'The picture of the letterhead');
      }),
  };
};

/** As sentences call them. */
const names: Readonly<Record<SettingKey, string>> = {
  letterhead: 'The letterhead',
  money: 'What is said of money',
  measures: 'How measures are shown',
  people: 'The list of who works here',
  counter: 'The letter of this counter',
};

const heldSetting = async <Key extends SettingKey>({ orm }: Reader, key: Key): Promise<ShopSettings[Key] | null> => {
  const [row] = await orm.select().from(t.shopSettings).where(eq(t.shopSettings.key, key));
  return (row?.value as ShopSettings[Key] | undefined) ?? null;
};

const settingIsAsRead = (key: SettingKey, held: ShopSettings[SettingKey] | null): Guard => {
  const refusal = trouble(
    'changed-since',
    `settings ${key}`,
    `${names[key]} was being saved elsewhere at the same time. Nothing was changed. Try again.`,
  );
  return held === null
    ? { sql: 'select not exists (select 1 from shop_settings where key = ?)', params: [key], refusal }
    : { sql: 'select count(*) from shop_settings where key = ? and value = ?', params: [key, JSON.stringify(held)], refusal };
};

const allSettings = async ({ orm }: Reader): Promise<KeptSettings> => {
  const rows = new Map((await orm.select().from(t.shopSettings)).map((row) => [row.key, row]));
  const kept = <Key extends SettingKey>(key: Key): KeptSetting<ShopSettings[Key]> => {
    const row = rows.get(key);
    if (row === undefined) return { value: unsaid[key], version: null, at: null, who: '' };
    const value = row.value as ShopSettings[Key];
    return { value, version: versionOf(value), at: row.at, who: row.who };
  };
  return {
    letterhead: kept('letterhead'),
    money: kept('money'),
    measures: kept('measures'),
    people: kept('people'),
    counter: kept('counter'),
  };
};

const cleanedLogo = ({ name, bytes }: LogoToKeep): Outcome<Logo & { readonly bytes: Buffer }> => {
  const cleaned = cleanPhoto(bytes, name);
  if (!cleaned.ok) return cleaned;
  const { type, width, height, bytes: kept } = cleaned.value;
  if (type === 'image/webp')
    return failed(
      trouble(
        'photo-unreadable',
        name,
        `${name} is a WebP picture, which cannot be printed at the head of a page. Give it as PNG or JPEG.`,
      ),
    );
  if (kept.length > limits.logoBytes || Math.max(width, height) > limits.logoSide)
    return failed(
      trouble(
        'photo-too-large',
        name,
        `${name} is ${width} × ${height} pixels in ${kept.length} bytes; the most for the head of a page is ${limits.logoSide} a side and ${limits.logoBytes} bytes.`,
      ),
    );
  return done({ file: fileIdOf(kept), type, width, height, bytes: kept });
};

import { useEffect, useState } from 'react';
import type { KeptSetting, SettingKey, ShopSettings, Version } from '../../db/answers.ts';
import type { CallArgs, Trouble } from '../../electron/bridge/contract.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { useShop } from '../bridge/ShopContext.ts';

type Said<Key extends SettingKey> = NonNullable<ShopSettings[Key]>;

/** Somebody else saved the same since it was read here. */
export interface MetSetting<Value> {
  readonly base: Value;
  readonly mine: Value;
  readonly theirs: Value;
  readonly version: Version | null;
  readonly who: string;
  readonly at: string | null;
}

export interface SettingHeld<Value> {
  readonly said: string;
  readonly trouble: Trouble | null;
  readonly met: MetSetting<Value> | null;
  /** Saves against what was read here. */
  save(value: Value): Promise<void>;
  /** Saves over what was met, takes that, or leaves it for later. */
  settle(how: { readonly save: Value } | 'take theirs' | 'later'): void;
}

/**
 * One setting: saved against the version it was read in; where another is there by now, both are shown (H5).
 * @param base what this form was last filled with, and its version
 * @param onTaken what is there shall fill the form
 */
export const useSetting = <Key extends 'money' | 'measures' | 'people' | 'counter' | 'letterhead'>(
  key: Key,
  read: KeptSetting<Said<Key>>,
  onTaken: (value: Said<Key>) => void,
): SettingHeld<Said<Key>> => {
  const { refresh } = useShop();
  const [base, setBase] = useState(read);
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [met, setMet] = useState<MetSetting<Said<Key>> | null>(null);
  useEffect(() => {
    if (said === '') return;
    const timer = setTimeout(() => setSaid(''), 4000);
    return () => clearTimeout(timer);
  }, [said]);

  const saveAgainst = async (value: Said<Key>, against: Version | null): Promise<void> => {
    setTrouble(null);
    const setting = { key, value: withoutLogo(key, value) } as CallArgs<'settings.save'>['setting'];
    const reply = await desk.ask('settings.save', { setting, who: whoLooks(), madeAgainst: against });
    if (reply.ok) {
      setBase({ value, version: reply.value, at: null, who: whoLooks() });
      setSaid('Saved.');
      refresh();
      return;
    }
    if (reply.trouble.code !== 'changed-since') return setTrouble(reply.trouble);
    const there = await desk.ask('settings.all', {});
    if (!there.ok) return setTrouble(there.trouble);
    const { value: theirs, version, who, at } = there.value[key] as KeptSetting<ShopSettings[Key]>;
    setMet({ base: base.value, mine: value, theirs: theirs ?? base.value, version, who, at });
  };
  return {
    said,
    trouble,
    met,
    save: async (value) => {
      if (base.version !== null && sameValue(value, base.value)) return setSaid('Saved.');
      // A picture that was put in meanwhile, here or elsewhere, is no other word.
      const same = sameValue(withoutLogo(key, base.value), withoutLogo(key, read.value));
      await saveAgainst(value, same ? read.version : base.version);
    },
    settle: (how) => {
      if (met === null || how === 'later') return setMet(null);
      setMet(null);
      setBase({ value: met.theirs, version: met.version, at: met.at, who: met.who });
      onTaken(how === 'take theirs' ? met.theirs : how.save);
      refresh();
      if (how !== 'take theirs') void saveAgainst(how.save, met.version);
    },
  };
};

/** The picture of a letterhead is put in and taken out by itself. */
const withoutLogo = (key: SettingKey, value: object): object => {
  if (key !== 'letterhead') return value;
  const { logo: _, ...words } = value as ShopSettings['letterhead'];
  return words;
};

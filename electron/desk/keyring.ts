import type { Store } from '../../db/index.ts';
import type { Calls } from '../bridge/desk.ts';

/** The key the shop signs with, and whom it trusts. */
export const keyringCalls = ({ keys, packs }: Store): Calls<'keyring'> => ({
  'keyring.own': () => keys.own(),
  'keyring.make': ({ name, who, passphrase }) => keys.make(name.trim(), who, passphrase),
  'keyring.keys': () => keys.list(),
  'keyring.look': ({ text }) => keys.look(text, 'the key'),
  'keyring.trust': async ({ text, who }) => {
    const seen = await keys.look(text, 'the key');
    return seen.ok ? keys.trust(seen.value, who) : seen;
  },
  'keyring.withdraw': ({ key, who }) => keys.withdraw(key, who),
  'keyring.sign': ({ pack, passphrase }) => packs.signHeld(pack, passphrase),
});

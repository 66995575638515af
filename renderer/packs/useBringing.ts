import { useCallback, useEffect, useRef, useState } from 'react';
import type { MappedWord } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { PackLoaded, PackLooked } from '../../electron/bridge/pack-calls.ts';
import { desk } from '../bridge/desk.ts';
import { type HandedPack, handInPack } from './bringFiles.ts';
import { saidInAll } from './wordSaid.ts';

/** How far a pack has come on its way in. */
export type Bringing =
  | { readonly state: 'none' }
  | { readonly state: 'handing over'; readonly share: number }
  | { readonly state: 'looking'; readonly name: string }
  | {
      readonly state: 'faulty';
      readonly name: string;
      readonly handed: HandedPack;
      readonly looked: Extract<PackLooked, { sound: false }>;
      readonly signerIsFine: boolean;
    }
  /** Signed by somebody the shop does not know, or by another than before: whoever brings it may have asked. */
  | { readonly state: 'doubted'; readonly handed: HandedPack; readonly trouble: Trouble }
  | {
      readonly state: 'sound';
      readonly handed: HandedPack;
      readonly looked: Extract<PackLooked, { sound: true }>;
      readonly signerIsFine: boolean;
    }
  | { readonly state: 'putting in'; readonly title: string }
  | { readonly state: 'trouble'; readonly trouble: Trouble }
  | { readonly state: 'brought'; readonly pack: PackLoaded };

/** One pack on its way in: handed over, looked at, and put in on a word. What is left or given up is forgotten by the desk too. */
export function useBringing(onBrought: (pack: PackLoaded) => void) {
  const [bringing, setBringing] = useState<Bringing>({ state: 'none' });
  const held = useRef<string | null>(null);
  /** Counts what was chosen: an answer about what was chosen before is nobody's any more. */
  const turn = useRef(0);

  const forget = useCallback(() => {
    turn.current += 1;
    if (held.current !== null) void desk.ask('packs.leave', { token: held.current });
    held.current = null;
  }, []);
  useEffect(() => forget, [forget]);

  const look = useCallback(
    async (handed: HandedPack, signerIsFine: boolean, words?: readonly MappedWord[]) => {
      const mine = turn.current;
      const { token, name, leftAlone } = handed;
      setBringing({ state: 'looking', name });
      const reply = await desk.ask('packs.look', { token, signerIsFine, ...(words === undefined ? {} : { words: [...words] }) });
      if (mine !== turn.current) return;
      if (!reply.ok && reply.trouble.code === 'pack-signer' && !signerIsFine)
        return setBringing({ state: 'doubted', handed, trouble: reply.trouble });
      if (!reply.ok) {
        forget();
        return setBringing({ state: 'trouble', trouble: reply.trouble });
      }
      const looked = { ...reply.value, leftAlone: [...reply.value.leftAlone, ...leftAlone] };
      if (looked.sound) return setBringing({ state: 'sound', handed, looked, signerIsFine });
      // What is said of its words may mend it.
      if (looked.words.length === 0) forget();
      setBringing({ state: 'faulty', name, handed, looked, signerIsFine });
    },
    [forget],
  );

  const choose = useCallback(
    async (files: readonly File[]) => {
      if (files.length === 0) return;
      forget();
      const mine = turn.current;
      setBringing({ state: 'handing over', share: 0 });
      const handed = await handInPack(files, (share) => mine === turn.current && setBringing({ state: 'handing over', share }));
      if (mine !== turn.current) return void (handed.ok && desk.ask('packs.leave', { token: handed.value.token }));
      if (!handed.ok) return setBringing({ state: 'trouble', trouble: handed.trouble });
      held.current = handed.value.token;
      await look(handed.value, false);
    },
    [forget, look],
  );

  const leave = useCallback(() => {
    forget();
    setBringing({ state: 'none' });
  }, [forget]);

  /** @param holds whose word is to stand, by the cell of each dispute */
  const putIn = useCallback(
    async ({ handed, looked, signerIsFine }: Extract<Bringing, { state: 'sound' }>, holds: Readonly<Record<string, 'shop' | 'pack'>>) => {
      setBringing({ state: 'putting in', title: looked.pack.title });
      const reply = await desk.ask('packs.bring', {
        token: handed.token,
        signerIsFine,
        words: saidInAll(looked.words),
        holds: { ...holds },
      });
      if (!reply.ok) return setBringing({ state: 'trouble', trouble: reply.trouble });
      held.current = null;
      setBringing({ state: 'brought', pack: reply.value });
      onBrought(reply.value);
    },
    [onBrought],
  );

  return { bringing, choose, look, leave, putIn };
}

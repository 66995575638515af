import './packs.css';
import { type ReactNode, useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Beginning } from '../../electron/bridge/pack-calls.ts';
import { desk } from '../bridge/desk.ts';
import { setGuided } from '../look/guidedState.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { goTo } from '../route/route.ts';
import { BringPack } from './BringPack.tsx';

/** An atlas that holds no packs can answer nothing: what it begins with is asked here, and nowhere else. */
export function BeginScreen({ help, onBegun }: { readonly help: ReactNode; onBegun(): void }) {
  const [working, setWorking] = useState<Beginning | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const begin = async (beginning: Beginning): Promise<void> => {
    setTrouble(null);
    setWorking(beginning);
    const reply = await desk.ask('packs.begin', { with: beginning });
    setWorking(null);
    // Another window may have begun it meanwhile.
    if (!reply.ok && reply.trouble.code !== 'already-begun') return setTrouble(reply.trouble);
    if (beginning === 'invented') setGuided('offered');
    goTo(beginning === 'empty' ? { screen: 'atlas', page: null } : { screen: 'unit' });
    onBegun();
  };
  return (
    <main className="first-screen">
      <header>
        <p className="first-word">Kinplate</p>
        <h1>What shall this atlas begin with?</h1>
        <p className="soft">It holds nothing yet. Whatever you choose can be taken out again or added to later, under Packs.</p>
        <p className="first-help">{help}</p>
      </header>
      {trouble !== null && <TroubleNote lead="The atlas was not begun." trouble={trouble} />}
      <p role="status" className="soft first-said">
        {working === null ? '' : working === 'invented' ? 'Filling the atlas, which takes some seconds…' : 'Beginning the atlas…'}
      </p>
      <div className="first-choices">
        <section className="first-choice" aria-labelledby="first-invented">
          <h2 id="first-invented">The invented atlas, to look round in</h2>
          <p>
            Makers, families and models with all their parts, and sample units to judge. Every name and figure in it is made up: it shows
            what Kinplate does, and says nothing of any real turbocharger.
          </p>
          <button type="button" className="button main" disabled={working !== null} onClick={() => void begin('invented')}>
            Look round in the invented atlas
          </button>
        </section>
        <section className="first-choice" aria-labelledby="first-empty">
          <h2 id="first-empty">An empty one, for your shop</h2>
          <p>
            The words of the trade alone: slots, features, joints and how each is checked. It names no maker yet, so no unit can be named
            until you put in what your shop knows. Its hours and limits are made up: put in your own.
          </p>
          <button type="button" className="button main" disabled={working !== null} onClick={() => void begin('empty')}>
            Begin an empty one
          </button>
        </section>
        <section className="first-choice" aria-labelledby="first-bring">
          <h2 id="first-bring">A pack somebody made</h2>
          <p>
            Makers, models and parts put together by another shop, or by yours on another machine: a folder of files, or the same as one
            ZIP. It is read first, and nothing is put in before you have seen what it comes to.
          </p>
          <BringPack onBrought={onBegun} disabled={working !== null} />
        </section>
      </div>
    </main>
  );
}

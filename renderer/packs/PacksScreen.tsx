import './packs.css';
import { useRef, useState } from 'react';
import type { HeldPack } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { ShippedPack } from '../../electron/bridge/pack-calls.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { BringPack } from './BringPack.tsx';
import { HeldPackTag } from './HeldPackTag.tsx';
import { Keyring } from './Keyring.tsx';
import { PackWouldFollow } from './PackWouldFollow.tsx';
import { SignPack } from './SignPack.tsx';
import { savePack } from './savePack.ts';

interface Said {
  readonly said: string;
  readonly trouble: { readonly lead: string; readonly trouble: Trouble } | null;
}

/** What the atlas is made of: each pack with what it holds and what keeps it in; taken out, written out, put in and brought in. */
export function PacksScreen() {
  const [changes, setChanges] = useState(0);
  const [working, setWorking] = useState(false);
  const [{ said, trouble }, say] = useState<Said>({ said: '', trouble: null });
  const head = useRef<HTMLHeadingElement>(null);
  const asked = useAsk('packs.held', {}, 0, changes);
  const packs = latest(asked);
  const askedOwn = useAsk('keyring.own', {}, 0, changes);
  const own = latest(askedOwn);
  const [signing, setSigning] = useState<HeldPack | null>(null);

  /** One thing at a time; what was pressed may be gone afterwards, so the focus goes to the head. */
  const work = async (doing: string, lead: string, job: () => Promise<Trouble | string>): Promise<void> => {
    setWorking(true);
    say({ said: doing, trouble: null });
    const came = await job();
    setWorking(false);
    say(typeof came === 'string' ? { said: came, trouble: null } : { said: '', trouble: { lead, trouble: came } });
    setChanges((count) => count + 1);
    head.current?.focus();
  };
  const takeOut = ({ id, title, version }: HeldPack): void =>
    void work(`Taking out ${title}…`, 'It was not taken out.', async () => {
      const reply = await desk.ask('packs.takeOut', { id, madeAgainst: version });
      return reply.ok ? `Taken out: ${title}. The backup made before still has it.` : reply.trouble;
    });
  const putIn = ({ id, title }: ShippedPack): void =>
    void work(`Putting in ${title}…`, 'It was not put in.', async () => {
      const reply = await desk.ask('packs.putIn', { id });
      return reply.ok ? `Put in: ${title}, edition ${reply.value.edition}.` : reply.trouble;
    });
  const writeOut = ({ id, title }: HeldPack): void =>
    void work(`Writing ${title}…`, 'No file was written.', async () => {
      const saved = await savePack(id);
      return saved.ok ? `Written: ${saved.value}.` : saved.trouble;
    });

  const sign = ({ id, title }: HeldPack, passphrase: string | null): void =>
    void work(`Signing ${title}…`, 'It was not signed.', async () => {
      const reply = await desk.ask('keyring.sign', { pack: id, passphrase });
      return reply.ok ? `Signed: ${title}, as ${reply.value.name}. Written out from now on, it goes out signed.` : reply.trouble;
    });

  return (
    <main className="page-screen packs-screen">
      <header className="page-ask">
        <h1 className="page-title" ref={head} tabIndex={-1}>
          Packs
        </h1>
        <a className="no-print" href={hrefOf({ screen: 'atlas', page: null })}>
          Back to the atlas
        </a>
        <a className="no-print" href={hrefOf({ screen: 'table' })}>
          Bring a spreadsheet
        </a>
        <span role="status" className="soft">
          {said}
        </span>
      </header>
      {trouble !== null && <TroubleNote lead={trouble.lead} trouble={trouble.trouble} />}
      {asked.state === 'trouble' && <TroubleNote lead="The packs could not be listed." trouble={asked.trouble} />}
      {packs === null && asked.state !== 'trouble' && <p className="soft page-hint">Looking at the packs…</p>}
      {packs !== null && (
        <>
          <section aria-labelledby="packs-held">
            <h2 id="packs-held" className="head">
              In this atlas
            </h2>
            {packs.held.map((pack) => (
              <HeldPackTag
                key={pack.id}
                pack={pack}
                titles={new Map(packs.held.map(({ id, title }) => [id, title]))}
                working={working}
                onTakeOut={() => takeOut(pack)}
                onWrite={() => writeOut(pack)}
                onSign={own === null || pack.signer !== null ? null : () => setSigning(pack)}
              />
            ))}
          </section>
          {packs.shipped.length > 0 && (
            <section aria-labelledby="packs-shipped">
              <h2 id="packs-shipped" className="head">
                Comes with the program
              </h2>
              {packs.shipped.map((pack) => (
                <article key={pack.id} className="pack-tag is-out" aria-label={pack.title}>
                  <div>
                    <h3>
                      {pack.title} {pack.invented && <span className="invented-tag">invented</span>}
                    </h3>
                    <p className="small soft">edition {pack.edition}</p>
                    <p>{pack.note}</p>
                    <PackWouldFollow of={{ putIn: pack.id }} summary="What would follow once it is put in" />
                  </div>
                  <div className="pack-acts no-print">
                    <button
                      type="button"
                      className="button"
                      disabled={working}
                      aria-label={`Put in ${pack.title}`}
                      onClick={() => putIn(pack)}
                    >
                      Put in
                    </button>
                  </div>
                </article>
              ))}
            </section>
          )}
          <section aria-labelledby="packs-bring" className="no-print">
            <h2 id="packs-bring" className="head">
              Bring in a pack
            </h2>
            <p className="packs-hint">
              A folder of JSON and CSV files, or the same as one ZIP. It is read first: either all its faults are listed, or what it would
              add and alter. The words of the trade it leans on come with it from the program.
            </p>
            <BringPack onChosen={() => say({ said: '', trouble: null })} onBrought={() => setChanges((count) => count + 1)} />
          </section>
          <Keyring own={askedOwn} onChanged={() => setChanges((count) => count + 1)} />
          {signing !== null && own !== null && (
            <SignPack
              title={signing.title}
              name={own.name}
              onSign={(passphrase) => {
                setSigning(null);
                sign(signing, passphrase);
              }}
              onLeave={() => setSigning(null)}
            />
          )}
        </>
      )}
    </main>
  );
}

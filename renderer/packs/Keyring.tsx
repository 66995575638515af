import './keyring.css';
import { useId, useState } from 'react';
import type { OwnKey, TrustedKey } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { type Asked, latest, latestGiven, useAsk } from '../bridge/useAsk.ts';
import { sayInstant } from '../cases/sayCase.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { FileChooser } from '../look/FileChooser.tsx';
import { giveFile } from '../look/giveFile.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';

/** What waits for an answer: a key that was chosen, or one that is to be trusted no more. */
type Waiting = { readonly what: 'trust'; readonly key: OwnKey } | { readonly what: 'withdraw'; readonly key: TrustedKey };

interface Props {
  /** The shop's own key, as far as it is known. */
  readonly own: Asked<OwnKey | null>;
  onChanged(): void;
}

/** The key this shop signs packs with, and whose packs it takes (P15). */
export function Keyring({ own, onChanged }: Props) {
  const [version, setVersion] = useState(0);
  const [waiting, setWaiting] = useState<Waiting | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [said, setSaid] = useState('');
  const ring = useAsk('keyring.keys', {}, 0, version);

  /** Says what came of it, and shows what there is now. */
  const settled = (reply: { readonly ok: true } | { readonly ok: false; readonly trouble: Trouble }, done: string): void => {
    setTrouble(reply.ok ? null : reply.trouble);
    setSaid(reply.ok ? done : '');
    setVersion((count) => count + 1);
    onChanged();
  };
  const look = async ([file]: readonly File[]): Promise<void> => {
    if (file === undefined) return;
    setSaid('');
    // What is longer is no key, and is told so.
    const reply = await desk.ask('keyring.look', { text: await file.slice(0, 10_000).text() });
    setTrouble(reply.ok ? null : reply.trouble);
    if (reply.ok) setWaiting({ what: 'trust', key: reply.value });
  };
  const trust = async (key: OwnKey): Promise<void> => {
    setWaiting(null);
    settled(await desk.ask('keyring.trust', { text: key.text, who: whoLooks() }), `Packs signed by ${key.name} are taken from now on.`);
  };
  const withdraw = async (key: TrustedKey): Promise<void> => {
    setWaiting(null);
    settled(await desk.ask('keyring.withdraw', { key: key.key, who: whoLooks() }), `The key of ${key.name} is withdrawn.`);
  };

  const keys = latest(ring) ?? [];
  return (
    <section className="keyring" aria-labelledby="keyring-head">
      <h2 className="head" id="keyring-head">
        Keys
      </h2>
      <p className="packs-hint">
        A pack that is signed with a key says who answers for it, and that nothing in it was altered since. A signature does not say that
        what the pack says is right.
      </p>
      {own.state === 'trouble' && <TroubleNote lead="The shop’s own key could not be read." trouble={own.trouble} />}
      {own.state !== 'trouble' && latest(own) !== null && <Own own={latest(own) as OwnKey} />}
      {/* What is typed stays while it is asked again. */}
      {own.state !== 'trouble' && latestGiven(own)?.value === null && (
        <MakeKey
          onMade={(reply) =>
            settled(reply, 'The key is made. Keep a copy of its file, signing-key.pem in the data folder, where only this shop gets at it.')
          }
        />
      )}

      <h3>Whose packs this shop takes</h3>
      {ring.state === 'trouble' && <TroubleNote lead="The keyring could not be read." trouble={ring.trouble} />}
      {keys.length === 0 ? (
        ring.state === 'answered' && (
          <p className="soft">Nobody’s yet: a signed pack is put in only after whoever signed it has been asked.</p>
        )
      ) : (
        <KeyTable keys={keys} onWithdraw={(key) => setWaiting({ what: 'withdraw', key })} />
      )}
      <div className="keyring-ways no-print">
        <FileChooser label="File of a public key" of={{ accept: '.txt,text/plain' }} onChosen={(files) => void look(files)}>
          Trust another key…
        </FileChooser>
        <span role="status" className="soft">
          {said}
        </span>
      </div>
      {trouble !== null && <TroubleNote lead="Nothing was changed in the keys." trouble={trouble} />}
      {waiting?.what === 'trust' && (
        <AskDialog
          title={`Trust the key of ${waiting.key.name}?`}
          choices={[{ label: 'They are the same: trust it', tone: 'main', run: () => void trust(waiting.key) }]}
          onLeave={() => setWaiting(null)}
        >
          <p>
            Have these six groups read to you by whoever the key is from, on the telephone or across the counter, and not in the message it
            came with.
          </p>
          <p>
            <Fingerprint of={waiting.key.fingerprint} />
          </p>
        </AskDialog>
      )}
      {waiting?.what === 'withdraw' && (
        <AskDialog
          title={`Trust the key of ${waiting.key.name} no more?`}
          choices={[{ label: 'Withdraw it', tone: 'danger', run: () => void withdraw(waiting.key) }]}
          onLeave={() => setWaiting(null)}
        >
          <p>
            What was put in from {waiting.key.name} stays in the atlas. Whatever else is signed with this key is refused until the key is
            trusted again.
          </p>
        </AskDialog>
      )}
    </section>
  );
}

/** In groups, as it is read aloud. */
function Fingerprint({ of }: { readonly of: string }) {
  return <code className="fingerprint">{of.replaceAll('-', ' ')}</code>;
}

function Own({ own: { name, fingerprint, text } }: { readonly own: OwnKey }) {
  return (
    <>
      <p>
        This shop signs as <strong>{name}</strong>. Whoever takes its packs asks for these six groups before trusting the key:
      </p>
      <p className="keyring-own">
        <Fingerprint of={fingerprint} />
        <button type="button" className="button no-print" onClick={() => giveFile(`${fileOf(name)}-public-key.txt`, text, 'text/plain')}>
          Write out the public key
        </button>
      </p>
    </>
  );
}

const fileOf = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '') || 'shop';

interface MakeProps {
  onMade(reply: { readonly ok: true } | { readonly ok: false; readonly trouble: Trouble }): void;
}

function MakeKey({ onMade }: MakeProps) {
  const [name, setName] = useState('');
  const [passphrase, setPassphrase] = useState('');
  const [working, setWorking] = useState(false);
  const [nameId, phraseId, hintId] = [useId(), useId(), useId()];
  const make = async (): Promise<void> => {
    setWorking(true);
    const reply = await desk.ask('keyring.make', { name, who: whoLooks(), passphrase: passphrase === '' ? null : passphrase });
    setWorking(false);
    onMade(reply);
  };
  return (
    <>
      <p id={hintId} className="packs-hint no-print">
        This shop has no key to sign with yet. It is made once; others know it by the name given here. With a passphrase only those who know
        it can sign. The passphrase is kept nowhere: once it is forgotten, nobody can sign with this key.
      </p>
      <form
        className="keyring-make no-print"
        onSubmit={(event) => {
          event.preventDefault();
          void make();
        }}
      >
        <label htmlFor={nameId}>Name of the shop</label>
        <input
          id={nameId}
          className="field"
          value={name}
          maxLength={200}
          autoComplete="off"
          onChange={(event) => setName(event.target.value)}
        />
        <label htmlFor={phraseId}>Passphrase, if any</label>
        <input
          id={phraseId}
          className="field"
          type="password"
          value={passphrase}
          maxLength={1000}
          autoComplete="new-password"
          onChange={(event) => setPassphrase(event.target.value)}
        />
        <button type="submit" className="button" disabled={working || name.trim() === ''} aria-describedby={hintId}>
          Make the key
        </button>
      </form>
    </>
  );
}

function KeyTable({ keys, onWithdraw }: { readonly keys: readonly TrustedKey[]; onWithdraw(key: TrustedKey): void }) {
  return (
    <table className="page-table keyring-table" aria-label="Keys this shop trusts, and those it withdrew">
      <thead>
        <tr>
          <th scope="col">Name</th>
          <th scope="col">Its six groups</th>
          <th scope="col">Trusted</th>
          <th scope="col" className="no-print">
            <span className="unseen">What to do</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {keys.map((key) => (
          <tr key={key.key} className={key.withdrawn === null ? undefined : 'is-withdrawn'}>
            <th scope="row">{key.name}</th>
            <td>
              <Fingerprint of={key.fingerprint} />
            </td>
            <td>
              since {sayInstant(key.since)}
              {key.who !== '' && `, by ${key.who}`}
              {key.withdrawn !== null && (
                <>
                  ; <strong>withdrawn</strong> {sayInstant(key.withdrawn.at)}
                  {key.withdrawn.who !== '' && `, by ${key.withdrawn.who}`}
                </>
              )}
            </td>
            <td className="no-print">
              {key.withdrawn === null && (
                <button type="button" className="button" aria-label={`Withdraw the key of ${key.name}`} onClick={() => onWithdraw(key)}>
                  Withdraw
                </button>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

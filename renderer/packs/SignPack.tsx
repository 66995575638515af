import './keyring.css';
import { useId, useState } from 'react';
import { ModalBox } from '../look/ModalBox.tsx';

interface Props {
  readonly title: string;
  /** Whose key it is. */
  readonly name: string;
  onSign(passphrase: string | null): void;
  onLeave(): void;
}

/** Asks before a pack is signed, and for the passphrase of the key. */
export function SignPack({ title, name, onSign, onLeave }: Props) {
  const [passphrase, setPassphrase] = useState('');
  const id = useId();
  return (
    <ModalBox title={`Sign “${title}” as ${name}?`} onLeave={onLeave}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          onSign(passphrase === '' ? null : passphrase);
        }}
      >
        <p>{name} then answers for all that stands in it. What is changed in it afterwards is not signed until it is signed again.</p>
        <p className="sign-phrase">
          <label htmlFor={id}>Passphrase of the key, if it has one</label>{' '}
          <input
            id={id}
            className="field"
            type="password"
            value={passphrase}
            maxLength={1000}
            autoComplete="off"
            // biome-ignore lint/a11y/noAutofocus: a modal question takes the focus; this is its first field.
            autoFocus
            onChange={(event) => setPassphrase(event.target.value)}
          />
        </p>
        <div className="actions">
          <button type="submit" className="button main">
            Sign it
          </button>
          <button type="button" className="button" onClick={onLeave}>
            Cancel
          </button>
        </div>
      </form>
    </ModalBox>
  );
}

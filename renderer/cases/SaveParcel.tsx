import { useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { saveParcel } from './parcelFile.ts';

/** The whole case with its photographs, as one file. */
export function SaveParcel({ sheet }: { readonly sheet: SheetId }) {
  const [state, setState] = useState<'rest' | 'making' | { readonly name: string } | { readonly trouble: Trouble }>('rest');
  const save = async () => {
    setState('making');
    const saved = await saveParcel(sheet);
    setState(saved.ok ? { name: saved.value } : { trouble: saved.trouble });
  };
  return (
    <>
      <span className="small soft" role="status">
        {state === 'making' ? 'Making the file…' : typeof state === 'object' && 'name' in state ? `Written: ${state.name}.` : ''}
      </span>
      {typeof state === 'object' && 'trouble' in state && <TroubleNote lead="No file was written." trouble={state.trouble} />}
      <button type="button" className="button plain" disabled={state === 'making'} onClick={() => void save()}>
        Save as one file
      </button>
    </>
  );
}

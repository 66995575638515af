import { useId, useState } from 'react';
import type { Letterhead as Head, KeptSetting } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { whoLooks } from '../bench/useWho.ts';
import { base64Of } from '../bridge/base64.ts';
import { desk } from '../bridge/desk.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { FileChooser } from '../look/FileChooser.tsx';
import { Letterhead } from '../look/Letterhead.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { SettingForm } from './SettingForm.tsx';
import { useSetting } from './useSetting.ts';

const names = { name: 'Name', lines: 'Address', logo: 'Picture' } as const;

/** Name and address for the head of what is printed. */
export function LetterheadForm({ read }: { readonly read: KeptSetting<Head> }) {
  const id = useId();
  const [name, setName] = useState(read.value.name);
  const [lines, setLines] = useState(read.value.lines.join('\n'));
  const { logo } = useShop().settings.letterhead;
  const held = useSetting('letterhead', read, (head) => {
    setName(head.name);
    setLines(head.lines.join('\n'));
  });
  const written = (): Head => ({
    name: name.trim(),
    lines: lines
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== '')
      .slice(0, 8),
    logo,
  });
  return (
    <>
      <SettingForm
        title="Letterhead"
        held={held}
        names={names}
        say={(field, value) =>
          field === 'lines' ? (value as Head['lines']).join(', ') : field === 'logo' ? (value === null ? '' : 'a picture') : String(value)
        }
        read={written}
      >
        <div className="setting-fields">
          <label htmlFor={`${id}-name`}>Name of the shop</label>
          <input
            id={`${id}-name`}
            className="field"
            maxLength={200}
            autoComplete="off"
            value={name}
            onChange={(event) => setName(event.target.value)}
          />
          <label htmlFor={`${id}-lines`}>Address and telephone, a line each</label>
          <textarea
            id={`${id}-lines`}
            className="field"
            rows={4}
            maxLength={1600}
            value={lines}
            onChange={(event) => setLines(event.target.value)}
          />
        </div>
      </SettingForm>
      <LogoBlock has={logo !== null} />
      <div className="setting-proof">
        <p className="small soft">
          It stands at the head of reports, tickets and build sheets, on paper and in the PDF. Without a name and a picture there is none.
        </p>
        <Letterhead />
      </div>
    </>
  );
}

/** The picture is put in by itself: it is a file. */
function LogoBlock({ has }: { readonly has: boolean }) {
  const { refresh } = useShop();
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const set = async (picked: File | null): Promise<void> => {
    setTrouble(null);
    // What is there now is read first: the picture belongs to the letterhead as it stands, whoever wrote its words.
    const there = await desk.ask('settings.all', {});
    if (!there.ok) return setTrouble(there.trouble);
    const logo = picked === null ? null : { name: picked.name, data: await base64Of(picked) };
    const reply = await desk.ask('settings.setLogo', { logo, who: whoLooks(), madeAgainst: there.value.letterhead.version });
    if (!reply.ok) return setTrouble(reply.trouble);
    refresh();
  };
  return (
    <div className="setting-logo">
      <FileChooser
        label="Picture for the letterhead"
        of={{ accept: 'image/png,image/jpeg' }}
        onChosen={([picked]) => {
          if (picked !== undefined) void set(picked);
        }}
      >
        {has ? 'Another picture…' : 'Add a picture…'}
      </FileChooser>
      {has && (
        <button type="button" className="button plain" onClick={() => void set(null)}>
          Take the picture out
        </button>
      )}
      <span className="small soft">PNG or JPEG, 512 KiB at most</span>
      {trouble !== null && <TroubleNote lead="The picture was not taken." trouble={trouble} />}
    </div>
  );
}

import { type FormEvent, useState } from 'react';
import type { DocumentAbout, ShopDocument } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { whoLooks } from '../bench/useWho.ts';
import { base64Of, bytesOf } from '../bridge/base64.ts';
import { desk } from '../bridge/desk.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { FileChooser } from '../look/FileChooser.tsx';
import { giveBytes } from '../look/giveFile.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayBytes } from '../values/figures.ts';
import { sayWhen } from '../values/sayWhen.ts';

type Doing =
  | { readonly what: 'remove'; readonly paper: ShopDocument }
  | { readonly what: 'read'; readonly paper: ShopDocument; readonly type: string; readonly data: string }
  | { readonly what: 'add'; readonly picked: File };

/** The papers the shop keeps beside a part or a source: read, saved, added and taken away. They go out with no pack. */
export function Papers({ about, heading }: { readonly about: DocumentAbout; readonly heading: string }) {
  const [asking, setAsking] = useState(0);
  const papers = latest(useAsk('documents.of', { about: [about] }, 0, asking)) ?? [];
  const [doing, setDoing] = useState<Doing | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const changed = (): void => {
    setDoing(null);
    setAsking((count) => count + 1);
  };
  const open = async (paper: ShopDocument, how: 'read' | 'save'): Promise<void> => {
    setTrouble(null);
    const reply = await desk.ask('documents.read', { file: paper.file });
    if (!reply.ok) return setTrouble(reply.trouble);
    if (how === 'save') giveBytes(paper.name, bytesOf(reply.value.data), reply.value.type);
    else setDoing({ what: 'read', paper, ...reply.value });
  };
  const remove = async (paper: ShopDocument): Promise<void> => {
    const reply = await desk.ask('documents.remove', { about, file: paper.file });
    if (!reply.ok) setTrouble(reply.trouble);
    changed();
  };
  return (
    <section className="papers no-print" aria-label={heading}>
      <div className="head papers-head">
        <h3>{heading}</h3>
        <FileChooser
          label={`File for ${heading}`}
          of={{ accept: '.pdf,.jpg,.jpeg,.png,.txt,application/pdf,image/jpeg,image/png,text/plain' }}
          className="button plain"
          onChosen={([picked]) => {
            if (picked !== undefined) setDoing({ what: 'add', picked });
          }}
        >
          Add a paper…
        </FileChooser>
      </div>
      {trouble !== null && <TroubleNote lead="That did not work." trouble={trouble} />}
      {papers.length > 0 && (
        <ul className="paper-list">
          {papers.map((paper) => (
            <li key={paper.file}>
              {canBeShown(paper) ? (
                <button type="button" className="link" onClick={() => void open(paper, 'read')}>
                  {titleOf(paper)}
                </button>
              ) : (
                titleOf(paper)
              )}{' '}
              <span className="small soft">
                {paper.size === null ? 'its file is lost' : `${kinds[paper.type ?? ''] ?? 'file'}, ${sayBytes(paper.size)}`},{' '}
                {paper.who || 'nobody said who'} {sayWhen(paper.at)}
              </span>{' '}
              {paper.size !== null && (
                <button
                  type="button"
                  className="button plain"
                  aria-label={`Save ${titleOf(paper)}`}
                  onClick={() => void open(paper, 'save')}
                >
                  Save
                </button>
              )}
              <button
                type="button"
                className="button bare"
                aria-label={`Take ${titleOf(paper)} away`}
                onClick={() => setDoing({ what: 'remove', paper })}
              >
                ✕
              </button>
            </li>
          ))}
        </ul>
      )}
      {doing?.what === 'add' && <AddPaper about={about} picked={doing.picked} onAdded={changed} onLeave={() => setDoing(null)} />}
      {doing?.what === 'remove' && (
        <AskDialog
          title={`Take ${titleOf(doing.paper)} away?`}
          choices={[{ label: 'Take it away', tone: 'danger', run: () => void remove(doing.paper) }]}
          onLeave={() => setDoing(null)}
        >
          <p>It is not kept anywhere else here, unless it stands beside something else too.</p>
        </AskDialog>
      )}
      {doing?.what === 'read' && (
        <ModalBox title={titleOf(doing.paper)} className="paper-view" onLeave={() => setDoing(null)}>
          {doing.type === 'text/plain' ? (
            // biome-ignore lint/a11y/noNoninteractiveTabindex: a long letter is scrolled by keys.
            <pre tabIndex={0}>{new TextDecoder().decode(bytesOf(doing.data))}</pre>
          ) : (
            <img src={`data:${doing.type};base64,${doing.data}`} alt={titleOf(doing.paper)} />
          )}
          <div className="actions">
            <button type="button" className="button main" onClick={() => setDoing(null)}>
              Close
            </button>
          </div>
        </ModalBox>
      )}
    </section>
  );
}

/** What it is, said before it is kept. */
function AddPaper(props: { readonly about: DocumentAbout; readonly picked: File; onAdded(): void; onLeave(): void }) {
  const { about, picked, onAdded, onLeave } = props;
  const [title, setTitle] = useState('');
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const add = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    // Far beyond the most it is not even read.
    if (picked.size > 10 * 1024 * 1024)
      return setTrouble({
        code: 'document-too-large',
        place: picked.name,
        sentence: `${picked.name} is larger than 10 MiB, which is the most.`,
      });
    if (picked.size === 0) return setTrouble({ code: 'document-unreadable', place: picked.name, sentence: `${picked.name} is empty.` });
    const reply = await desk.ask('documents.add', {
      about,
      name: picked.name.slice(0, 300),
      title: title.trim(),
      data: await base64Of(picked),
      who: whoLooks(),
    });
    if (reply.ok) onAdded();
    else setTrouble(reply.trouble);
  };
  return (
    <ModalBox title={`Keep ${picked.name}`} onLeave={onLeave}>
      <form onSubmit={(event) => void add(event)}>
        <label>
          What it is{' '}
          <input
            className="field"
            maxLength={300}
            autoComplete="off"
            placeholder="the supplier’s sheet, a drawing, a letter"
            // biome-ignore lint/a11y/noAutofocus: the box was asked for, and this is all there is to say in it.
            autoFocus
            value={title}
            onChange={(event) => setTitle(event.target.value)}
          />
        </label>
        <p className="small soft">It stays in this shop’s own atlas file, and goes out with no pack.</p>
        {trouble !== null && <TroubleNote lead="It was not kept." trouble={trouble} />}
        <div className="actions">
          <button type="submit" className="button main">
            Keep it
          </button>
          <button type="button" className="button" onClick={onLeave}>
            Cancel
          </button>
        </div>
      </form>
    </ModalBox>
  );
}

const titleOf = ({ title, name }: ShopDocument): string => (title === '' ? name : title);
const canBeShown = ({ type }: ShopDocument): boolean => type === 'text/plain' || type === 'image/jpeg' || type === 'image/png';
const kinds: Readonly<Record<string, string>> = {
  'application/pdf': 'PDF',
  'text/plain': 'text',
  'image/jpeg': 'picture',
  'image/png': 'picture',
};

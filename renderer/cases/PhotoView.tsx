import type { CasePhoto } from '../../db/answers.ts';
import type { Sheet } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { sayAbout, sayInstant } from './sayCase.ts';
import { usePicture } from './usePicture.ts';

/** A photograph as large as the window. Escape closes it. */
export function PhotoView({ photo, sheet, onLeave }: { readonly photo: CasePhoto; readonly sheet: Sheet | null; onLeave(): void }) {
  const words = useWords();
  const { address, trouble } = usePicture(photo.id, 'whole');
  const about = sayAbout(photo.about, sheet, words);
  const caption = [photo.caption, about].filter((text) => text !== '').join(' — ');
  return (
    <ModalBox className="photo-view" label={caption === '' ? 'Photograph' : caption} onLeave={onLeave}>
      {address === null ? (
        <p className="soft">{trouble ?? 'Fetching the photograph…'}</p>
      ) : (
        <img src={address} alt={caption === '' ? 'Photograph of the unit' : caption} />
      )}
      <div className="photo-view-foot">
        <span>
          {caption}
          <span className="small soft">
            {' '}
            {photo.width} × {photo.height}, added {sayInstant(photo.addedAt)}
          </span>
        </span>
        {/* biome-ignore lint/a11y/noAutofocus: a modal view takes the focus, and closing it is all there is to do. */}
        <button type="button" className="button" autoFocus onClick={onLeave}>
          Close
        </button>
      </div>
    </ModalBox>
  );
}

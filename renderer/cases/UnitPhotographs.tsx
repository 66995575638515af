import './cases.css';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { CasePhoto } from '../../db/answers.ts';
import type { Sheet } from '../../reasoner/index.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import type { Kept } from '../bench/unit.ts';
import { desk } from '../bridge/desk.ts';
import { PhotoBlock } from './PhotoBlock.tsx';

/** The photographs of the case of a unit that is open, beside its answer. The first one added to a sheet that is no case yet saves it. */
export function UnitPhotographs({ sheet, kept }: { readonly sheet: Sheet; readonly kept: Kept | null }) {
  const { save } = useBenchActions();
  const isCase = kept?.own === true;
  const { photos, put } = useCasePhotos(isCase ? sheet.id : null);
  return (
    <div className="unit-photographs">
      <PhotoBlock
        sheet={sheet.id}
        number={kept?.number ?? null}
        saved={isCase ? kept.sheet : null}
        photos={photos}
        makeCase={isCase ? undefined : save}
        onPhotos={put}
      />
    </div>
  );
}

/** Read anew when the window is come back to: they may have been changed elsewhere. */
const useCasePhotos = (sheet: Sheet['id'] | null) => {
  const [photos, setPhotos] = useState<readonly CasePhoto[]>([]);
  /** Moves on with every change made here: what was asked before it says less. */
  const changes = useRef(0);
  const put = useCallback((next: readonly CasePhoto[]) => {
    changes.current += 1;
    setPhotos(next);
  }, []);
  useEffect(() => {
    if (sheet === null) return;
    let there = true;
    const read = async () => {
      const before = changes.current;
      const reply = await desk.ask('cases.open', { sheet });
      if (there && reply.ok && changes.current === before) setPhotos(reply.value.photos);
    };
    void read();
    const onFocus = () => void read();
    window.addEventListener('focus', onFocus);
    return () => {
      there = false;
      window.removeEventListener('focus', onFocus);
    };
  }, [sheet]);
  return { photos, put };
};

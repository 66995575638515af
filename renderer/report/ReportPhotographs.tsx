import { useEffect, useState } from 'react';
import type { PhotoId } from '../../db/answers.ts';
import type { ReportPhotograph } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';
import { addressOf } from '../cases/photoFile.ts';

/** The case's photographs, each with its caption; one that cannot be shown says so in its place. */
export function ReportPhotographs({ photographs }: { readonly photographs: readonly ReportPhotograph[] }) {
  return (
    <div className="report-photographs">
      {photographs.map((photograph) => (
        <Photograph key={photograph.caption.text} photograph={photograph} />
      ))}
    </div>
  );
}

type Shown =
  | { readonly state: 'waiting' }
  | { readonly state: 'here'; readonly address: string }
  | { readonly state: 'gone'; readonly why: string };

function Photograph({ photograph: { hash, caption, width, height } }: { readonly photograph: ReportPhotograph }) {
  const [shown, setShown] = useState<Shown>({ state: 'waiting' });
  useEffect(() => {
    let address: string | null = null;
    let left = false;
    void desk.ask('photos.read', { photo: hash as PhotoId, which: 'whole' }).then((reply) => {
      if (left) return;
      if (!reply.ok) return setShown({ state: 'gone', why: reply.trouble.sentence });
      address = addressOf(reply.value.type, reply.value.data);
      setShown({ state: 'here', address });
    });
    return () => {
      left = true;
      if (address !== null) URL.revokeObjectURL(address);
    };
  }, [hash]);
  return (
    <figure className="report-photograph" data-state={shown.state}>
      {shown.state === 'here' && <img src={shown.address} alt={caption.text} width={width} height={height} />}
      {shown.state === 'gone' && <p className="small soft">{shown.why}</p>}
      <figcaption>{caption.text}</figcaption>
    </figure>
  );
}

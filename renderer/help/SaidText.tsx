import { Fragment } from 'react';
import { type Piece, readLabel, type Said } from './said.ts';

/** A sentence of help: labels stand out as they stand on the screen, keys as keys. */
export function SaidText({ said }: { readonly said: Said }) {
  return said.map((piece, index) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: a piece has no other identity than its place in the sentence.
    <Fragment key={index}>
      <PieceText piece={piece} />
    </Fragment>
  ));
}

function PieceText({ piece }: { readonly piece: Piece }) {
  if (typeof piece === 'string') return piece;
  if ('label' in piece) return <b className="help-label">{readLabel(piece)}</b>;
  if ('typed' in piece) return <code>{piece.typed}</code>;
  return piece.keys.press.map((one, index) => (
    <Fragment key={one}>
      {index > 0 && ' '}
      {one === '…' ? (
        '…'
      ) : (
        <span className="help-key">
          {one.split(/\+(?=.)/).map((key, at) => (
            <Fragment key={key}>
              {at > 0 && '+'}
              <kbd>{key}</kbd>
            </Fragment>
          ))}
        </span>
      )}
    </Fragment>
  ));
}

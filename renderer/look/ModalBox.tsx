import { type KeyboardEvent, type ReactNode, type Ref, useId, useImperativeHandle, useLayoutEffect, useRef } from 'react';

interface Props {
  /** Its heading; a box that shows its own says in `label` what it is. */
  readonly title?: ReactNode;
  readonly label?: string;
  readonly className?: string;
  readonly children: ReactNode;
  readonly ref?: Ref<HTMLDialogElement>;
  onKeyDown?(event: KeyboardEvent): void;
  /** Escape was pressed. The box stays until its owner takes it away. */
  onLeave(): void;
}

/** A box over the window: everything behind it waits, and the focus goes back to where it was when the box goes. */
export function ModalBox({ title, label, className, children, ref, onKeyDown, onLeave }: Props) {
  const box = useRef<HTMLDialogElement>(null);
  useImperativeHandle(ref, () => box.current as HTMLDialogElement, []);
  const id = useId();
  // Closed while it still stands in the page: of a box that is gone the browser gives no focus back.
  useLayoutEffect(() => {
    const dialog = box.current;
    if (dialog !== null && !dialog.open) dialog.showModal();
    return () => dialog?.close();
  }, []);
  return (
    <dialog
      ref={box}
      className={className}
      aria-label={label}
      aria-labelledby={title === undefined ? undefined : id}
      onKeyDown={onKeyDown}
      onCancel={(event) => {
        event.preventDefault();
        onLeave();
      }}
    >
      {title !== undefined && <h2 id={id}>{title}</h2>}
      {children}
    </dialog>
  );
}

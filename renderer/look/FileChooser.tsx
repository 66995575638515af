import { type ReactNode, useRef } from 'react';

interface Props {
  /** What is chosen, for whoever hears the page. */
  readonly label: string;
  /** Files of these kinds, one or several; or a whole folder. */
  readonly of: { readonly accept: string; readonly multiple?: true } | { readonly webkitdirectory: ''; readonly multiple: true };
  readonly className?: string;
  readonly disabled?: boolean;
  /** What the button says. */
  readonly children: ReactNode;
  onChosen(files: readonly File[]): void;
}

/** A button that opens the system's own way of choosing files. The same may be chosen again after it was mended, refused or removed. */
export function FileChooser({ label, of, className = 'button', disabled = false, children, onChosen }: Props) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className={className} disabled={disabled} onClick={() => input.current?.click()}>
        {children}
      </button>
      <input
        ref={input}
        type="file"
        {...of}
        className="unseen"
        tabIndex={-1}
        aria-label={label}
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          event.target.value = '';
          onChosen(files);
        }}
      />
    </>
  );
}

import { type ReactNode, useEffect, useRef } from 'react';

/** What came of looking, which takes the focus: it is what somebody waits for. */
export function Looked({ title, children }: { readonly title: ReactNode; readonly children: ReactNode }) {
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    head.current?.focus();
    head.current?.scrollIntoView({ block: 'start' });
  }, []);
  return (
    <section className="looked" aria-label="The pack that was chosen">
      <h3 ref={head} tabIndex={-1}>
        {title}
      </h3>
      {children}
    </section>
  );
}

/** What was chosen and is none of a pack's files. */
export function LeftAlone({ names }: { readonly names: readonly string[] }) {
  if (names.length === 0) return null;
  const shown = names.slice(0, 8);
  return (
    <p className="small soft">
      Left alone, being no files of a pack: {shown.join(', ')}
      {names.length > shown.length && ` and ${names.length - shown.length} more`}.
    </p>
  );
}

interface Props {
  readonly cautions: readonly string[];
  /** On a tag they stand small, under both texts; elsewhere as a part of the page. */
  readonly onTag?: boolean;
}

/** F5: the cautions belong to the answer itself. */
export function Cautions({ cautions, onTag = false }: Props) {
  if (cautions.length === 0) return null;
  const Head = onTag ? 'h3' : 'h2';
  return (
    <section className={onTag ? 'cautions is-on-tag' : 'cautions block'} aria-labelledby="verdict-cautions-title">
      <Head id="verdict-cautions-title" className={onTag ? undefined : 'head'}>
        Cautions
      </Head>
      <ul className={onTag ? undefined : 'sentences'}>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}

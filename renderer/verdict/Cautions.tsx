/** F5: the cautions belong to the answer itself. */
export function Cautions({ cautions }: { readonly cautions: readonly string[] }) {
  if (cautions.length === 0) return null;
  return (
    <section className="block cautions" aria-labelledby="verdict-cautions-title">
      <h2 id="verdict-cautions-title" className="head">
        Cautions
      </h2>
      <ul className="sentences">
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}

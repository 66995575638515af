/** F5: the cautions belong to the answer itself. */
export function Cautions({ cautions }: { readonly cautions: readonly string[] }) {
  if (cautions.length === 0) return null;
  return (
    <section className="cautions" aria-labelledby="verdict-cautions-title">
      <h3 id="verdict-cautions-title">Cautions</h3>
      <ul>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}

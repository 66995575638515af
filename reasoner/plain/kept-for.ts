/** What is made of a thing once, when first asked for, and goes with it. */
export const keptFor = <Of extends object, Value>(make: (of: Of) => Value): ((of: Of) => Value) => {
  const kept = new WeakMap<Of, { readonly value: Value }>();
  return (of) => {
    let known = kept.get(of);
    if (known === undefined) {
      known = { value: make(of) };
      kept.set(of, known);
    }
    return known.value;
  };
};

/** Every way to take one from each of the lists, the last list turning quickest. They are made as they are asked for: of long lists there are more than memory holds. */
export function* product<T>(lists: readonly (readonly T[])[], from = 0): Generator<T[]> {
  const list = lists[from];
  if (list === undefined) {
    yield [];
    return;
  }
  for (const each of list) for (const rest of product(lists, from + 1)) yield [each, ...rest];
}

export function ShelfScreen() {
  return <main />;
}

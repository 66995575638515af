/** Whether every word that was typed begins some word of the name, whatever the case; nothing typed matches all. */
export const matches = (name: string, typed: string): boolean => {
  const words = split(name);
  return split(typed).every((start) => words.some((word) => word.startsWith(start)));
};

const split = (text: string): readonly string[] =>
  text
    .toLowerCase()
    .split(/[\s-]+/)
    .filter((word) => word !== '');

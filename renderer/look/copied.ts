/** Told when words were put on the clipboard, to whoever waits for it. */
const heard = new Set<(text: string) => void>();

export const tellCopied = (text: string): void => {
  for (const tell of heard) tell(text);
};

/** Gives back how to stop hearing. */
export const onCopied = (tell: (text: string) => void): (() => void) => {
  heard.add(tell);
  return () => {
    heard.delete(tell);
  };
};

/** Puts a text on the clipboard: as a page asks for it, else as the copy key would. @returns whether the system took it */
export const copyText = async (text: string): Promise<boolean> => {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    let taken = false;
    const stop = onNextCopy(text, () => {
      taken = true;
    });
    const allowed = document.execCommand('copy');
    stop();
    return allowed && taken;
  }
};

/**
 * Where nothing is marked on the page, the copy key copies this text, once.
 * @returns how to have it no longer do so
 */
export const onNextCopy = (text: string, copied: () => void): (() => void) => {
  const onCopy = (event: ClipboardEvent): void => {
    if (event.clipboardData === null || window.getSelection()?.type === 'Range') return;
    event.clipboardData.setData('text/plain', text);
    event.preventDefault();
    stop();
    copied();
  };
  const stop = (): void => document.removeEventListener('copy', onCopy);
  document.addEventListener('copy', onCopy);
  return stop;
};

/** Hands a file over as a download; the browser or Electron asks where to. */
export function giveBlob(name: string, content: Blob): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has its own hold on the data once it has begun.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** Hands a text over as a download; the browser or Electron asks where to. */
export const giveFile = (name: string, text: string, type = 'application/json'): void => giveBlob(name, new Blob([text], { type }));

/** Hands bytes over in the same way. */
export const giveBytes = (name: string, bytes: Uint8Array<ArrayBuffer>, type: string): void => giveBlob(name, new Blob([bytes], { type }));

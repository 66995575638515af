/** The window's own scheme and address. Everything else is a stranger. */
export const scheme = 'kinplate';
export const home = 'kinplate://window';

/** Whether an address is one of ours, exactly: scheme and host, no port and no user. */
export const isOurs = (address: string): boolean => {
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    return false;
  }
  return url.protocol === `${scheme}:` && url.host === 'window' && url.username === '' && url.password === '';
};

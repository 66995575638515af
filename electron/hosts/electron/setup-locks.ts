import { app, type Session, type WebContents } from 'electron';
import { isOurs } from './address.ts';

/**
 * Keeps every page where it is: no other address, no other window, no embedded page, no permission and no device.
 * Set on every web contents as it is made, so that a window made elsewhere cannot lack it.
 */
export const setupLocks = (session: Session): void => {
  session.setPermissionRequestHandler((_contents, _permission, allow) => allow(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  // A sheet written to a file is a blob the window made; the system asks where to put it.
  session.on('will-download', (event, item) => {
    const address = item.getURL();
    if (!address.startsWith('blob:') || !isOurs(address.slice('blob:'.length))) event.preventDefault();
  });
  app.on('web-contents-created', (_event, contents) => lock(contents));
};

const lock = (contents: WebContents): void => {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  const keepHome = (event: { url: string; preventDefault(): void }) => {
    if (!isOurs(event.url)) event.preventDefault();
  };
  contents.on('will-navigate', keepHome);
  contents.on('will-frame-navigate', keepHome);
  contents.on('will-redirect', keepHome);
  contents.on('will-attach-webview', (event) => event.preventDefault());
};

import { protocol } from 'electron';
import type { RenderedFile } from '../rendered.ts';
import { securityHeaders } from '../security-headers.ts';
import { isOurs, scheme } from './address.ts';

/** Must run before the app is ready. Standard and secure, so that origin, storage and policy work as on https. */
export const declareScheme = (): void => {
  protocol.registerSchemesAsPrivileged([{ scheme, privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } }]);
};

/** Serves the built window from memory, with its content security policy on every answer. */
export const setupScheme = (rendered: ReadonlyMap<string, RenderedFile>): void => {
  protocol.handle(scheme, (request) => {
    if (!isOurs(request.url) || request.method !== 'GET') return new Response(null, { status: 403, headers: securityHeaders });
    const path = new URL(request.url).pathname;
    const file = rendered.get(path === '/' ? '/index.html' : path);
    if (file === undefined) return new Response('There is no such page.\n', { status: 404, headers: securityHeaders });
    return new Response(file.body, { status: 200, headers: { ...securityHeaders, 'content-type': file.type } });
  });
};

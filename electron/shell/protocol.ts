/** The panel's files under a scheme of their own, so that the page has an origin and a policy as on the web. */
import { protocol } from 'electron';
import type { PanelFiles } from '../host/transport/panel-files.ts';
import { panelHeaders } from '../host/transport/policy.ts';
import { isPanelAddress, SCHEME } from './address.ts';

/** Has to be called before the app is ready. */
export function registerScheme(): void {
  protocol.registerSchemesAsPrivileged([{ scheme: SCHEME, privileges: { standard: true, secure: true } }]);
}

export function servePanel(files: PanelFiles): void {
  // The page talks to the host over the bridge only: it may open no connection at all.
  const headers = panelHeaders(null);
  protocol.handle(SCHEME, (request) => {
    const file = isPanelAddress(request.url) ? files.get(new URL(request.url).pathname) : undefined;
    if (!file || request.method !== 'GET') return new Response(null, { status: 404, headers });
    return new Response(new Uint8Array(file.body), { headers: { ...headers, 'Content-Type': file.type } });
  });
}

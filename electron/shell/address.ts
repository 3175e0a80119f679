/** The panel's own address inside the window, and the check whether something comes from it. */

export const SCHEME = 'app';
const HOST = 'panel';
export const PANEL_ADDRESS = `${SCHEME}://${HOST}/`;

export function isPanelAddress(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol, host } = new URL(address);
  return protocol === `${SCHEME}:` && host === HOST;
}

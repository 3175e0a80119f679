/** Headers that go with every file of the panel, whoever serves it. */

/**
 * What the page may load: its own files and nothing inline. `connect` is the
 * one place, if any, that it may open a connection to.
 */
export function contentPolicy(connect: string | null): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "font-src 'self'",
    "img-src 'self' data: blob:",
    `connect-src ${connect ?? "'none'"}`,
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; ');
}

export function panelHeaders(connect: string | null): Record<string, string> {
  return {
    'Content-Security-Policy': contentPolicy(connect),
    'X-Content-Type-Options': 'nosniff',
    'X-Frame-Options': 'DENY',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'Cache-Control': 'no-store',
  };
}

/**
 * Who may speak to the browser host. The address carries a token that works
 * once: it is exchanged for a cookie, so that the page can be loaded again but
 * an address that leaked (history, screenshot) is worth nothing.
 */
import { randomBytes, timingSafeEqual } from 'node:crypto';

export class Door {
  private readonly cookie: string;
  private readonly token = secret();
  private readonly session = secret();
  private used = false;

  /** Cookies do not tell ports apart, so the name of the cookie has to. */
  constructor(port: number) {
    this.cookie = `amberwick-${port}`;
  }

  /** Goes into the address once. */
  get ticket(): string {
    return this.token;
  }

  /** The header that sets the cookie, when the ticket is right and has not been used; else null. */
  exchange(ticket: string): string | null {
    if (this.used || !same(ticket, this.token)) return null;
    this.used = true;
    return `${this.cookie}=${this.session}; HttpOnly; SameSite=Strict; Path=/`;
  }

  /** Whether a `Cookie` header shows that the ticket was exchanged. */
  knows(cookies: string | undefined): boolean {
    return (cookies ?? '').split(';').some((cookie) => {
      const [name, value] = cookie.trim().split('=');
      return name === this.cookie && value !== undefined && same(value, this.session);
    });
  }
}

function secret(): string {
  return randomBytes(24).toString('base64url');
}

function same(given: string, wanted: string): boolean {
  const a = Buffer.from(given);
  const b = Buffer.from(wanted);
  return a.length === b.length && timingSafeEqual(a, b);
}

/** Pictures that lie under plans, as this window has them: asked of the host once, decoded by the browser. */
import { type Signal, signal } from '@preact/signals';
import type { CallArgs, CallName, CallResults, Outcome, Problem } from '../../shared/workbench/contract.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';

export type PictureState =
  | { readonly is: 'loading' }
  /** `url` for an image; pixels as it is seen, upright. */
  | { readonly is: 'here'; readonly url: string; readonly width: number; readonly height: number }
  | { readonly is: 'missing'; readonly problem: Problem };

type Ask = <N extends CallName>(name: N, args: CallArgs<N>) => Promise<Outcome<CallResults[N]>>;

export class Pictures {
  readonly #call: Ask;
  readonly #known = new Map<string, Signal<PictureState>>();

  constructor(call: Ask) {
    this.#call = call;
  }

  /** The same signal for each call; the first one has the picture fetched. */
  of(id: string): Signal<PictureState> {
    const known = this.#known.get(id);
    if (known) return known;
    const state = signal<PictureState>({ is: 'loading' });
    this.#known.set(id, state);
    void this.#load(id, state);
    return state;
  }

  /** Asks again for what was missing. */
  again(id: string): void {
    const state = this.#known.get(id);
    if (state?.peek().is === 'missing') void this.#load(id, state);
  }

  async #load(id: string, state: Signal<PictureState>): Promise<void> {
    const outcome = await this.#call('picture', { id });
    if (!outcome.ok) {
      state.value = { is: 'missing', problem: outcome.problem };
      return;
    }
    const { type, base64 } = outcome.value;
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const found = await decode(new Blob([bytes], { type }));
    state.value = found
      ? { is: 'here', ...found }
      : { is: 'missing', problem: describeProblem('badPicture', { detail: id }) };
  }
}

export interface Decoded {
  readonly url: string;
  readonly width: number;
  readonly height: number;
}

/** Null when the browser cannot show it. */
export async function decode(file: Blob): Promise<Decoded | null> {
  const url = URL.createObjectURL(file);
  const image = new Image();
  image.src = url;
  try {
    await image.decode();
    return { url, width: image.naturalWidth, height: image.naturalHeight };
  } catch {
    URL.revokeObjectURL(url);
    return null;
  }
}

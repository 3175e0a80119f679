import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { Finding } from '../../shared/findings/finding.ts';
import { OFFERS, type Offer } from '../../shared/layout/new-site/offers.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { BoardSwitch } from '../board/board-switch.tsx';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { addSite, boardFor, takeLarger } from './add.ts';
import { Cards } from './cards.tsx';
import { notThere, wishFor } from './rules.ts';
import { Templates } from './templates.tsx';

/** Choose a card, press Enter: the site stands on the plan. */
export function NewSiteSheet() {
  const { model } = usePanel();
  const { layout } = model.open.value;
  if (!layout) return <p>Open a layout first: a site is added to it.</p>;
  return <NewSite layout={layout} />;
}

function NewSite({ layout }: { readonly layout: Layout }) {
  const { model, surface } = usePanel();
  const chosen = useSignal<Offer | null>(OFFERS[0] ?? null);
  const named = useSignal<string | null>(null);
  const board = useSignal<string | null>(null);
  const refused = useSignal<readonly Finding[]>([]);
  const form = useRef<HTMLFormElement>(null);
  const offer = chosen.value;
  useEffect(() => form.current?.querySelector<HTMLElement>('[role="radio"][tabindex="0"]')?.focus(), []);
  if (!offer) return null;

  const at = board.value ?? boardFor(model, offer);
  const name = named.value ?? offer.suggestName(layout);
  const tried = offer.add(layout, wishFor(layout, name, at));
  const inTheWay = 'findings' in tried ? tried.findings : refused.value;
  const isFull = inTheWay.some(({ code }) => code === 'too-few-outputs');
  const isSmall = isFull && layout.boards.find(({ id }) => id === at)?.chip === 'atmega328p';
  const warning = notThere(layout, offer);
  const add = async (): Promise<void> => {
    const findings = await addSite(model, offer, name, at);
    refused.value = findings ?? [];
    if (findings?.length === 0) surface.sheet.value = null;
  };
  return (
    <form
      ref={form}
      class="new-site"
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <Cards
        offers={OFFERS}
        chosen={offer}
        mark={(it) => notThere(layout, it) !== null}
        onChoose={(it) => {
          chosen.value = it;
          named.value = null;
          refused.value = [];
        }}
        onEnter={() => void add()}
      />
      <Templates
        board={at}
        refused={(findings) => {
          refused.value = findings;
        }}
      />
      <footer class="new-site-foot">
        {warning && (
          <p class="new-site-note">
            {warning.what} {warning.why}
          </p>
        )}
        {inTheWay.map((finding) => (
          <p key={finding.code} class="new-site-note" role="alert">
            <b>{finding.what}</b> {finding.cure}
          </p>
        ))}
        {isSmall && (
          <button type="button" class="button" onClick={() => void takeLarger(model, at)}>
            Take a board with an ATmega2560
          </button>
        )}
        {isFull && <CommandButton id="plan-wiring">Find outputs in the wiring</CommandButton>}
        <div class="row">
          <label class="field grow">
            Name
            <input
              class="remark"
              value={name}
              maxLength={56}
              onFocus={(event) => event.currentTarget.select()}
              onInput={(event) => {
                named.value = event.currentTarget.value;
              }}
            />
          </label>
          <BoardSwitch
            boards={layout.boards}
            chosen={at}
            choose={(id) => {
              board.value = id;
            }}
          />
          <button type="submit" class="button strong" aria-disabled={'findings' in tried}>
            Add it
          </button>
        </div>
      </footer>
    </form>
  );
}

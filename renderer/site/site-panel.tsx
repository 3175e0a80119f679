import { CommandButton } from '../commands/button.tsx';
import { findingsOfSite } from '../findings/places.ts';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { HoldNext } from '../tuning/hold-next.tsx';
import { SetsBar } from '../tuning/sets-bar.tsx';
import { UnsentNote } from '../tuning/unsent-note.tsx';
import { Dial } from './dial.tsx';
import { FixedDial } from './fixed-dial.tsx';
import { Inputs } from './inputs.tsx';
import { RunningNow } from './running-now.tsx';
import { SiteTabs } from './site-tabs.tsx';

/** The site at hand: what runs, what can be done with it, and its dials. */
export function SitePanel() {
  const { model } = usePanel();
  const site = model.siteAtHand.value;
  if (!site) return <NoSite />;
  const board = model.board(site.board);
  const isJunction = model.open.value.layout?.sites[site.index]?.kind === 'junction';
  const isHeld = board.state.value.held[site.number] ?? false;
  const isArmed = board.state.value.arms.some((arm) => arm.site === site.number);
  return (
    <section class="site-panel" aria-label="Site at hand">
      <SiteTabs />
      <div class="at-hand-now">
        <RunningNow key={site.id} site={site} />
        <div class="at-hand-commands">
          <CommandButton id="hold" pressed={isHeld}>
            {isHeld ? 'Let go' : 'Hold'}
          </CommandButton>
          <CommandButton id="hold-next" pressed={isArmed} />
          <CommandButton id="step" />
          <CommandButton id="restart" />
        </div>
      </div>
      <HoldNext site={site} />
      <SiteFindings site={site} />
      <UnsentNote board={site.board} />
      <SetsBar />
      <ul class="dials">
        {site.names.dials.map((dial, index) =>
          // A time whose limits are equal is none of the person's; it is told below.
          site.program.dials[index]?.min === site.program.dials[index]?.max ? null : (
            <Dial key={`${site.id} ${dial.id}`} site={site} dial={index} />
          ),
        )}
      </ul>
      <Inputs site={site} />
      <FixedDials site={site} />
      <p class="site-more">
        <CommandButton id="differs-sheet" />
        <CommandButton id="changes-sheet" />
        <CommandButton id="sets-sheet" />
        <CommandButton id="phases-sheet" />
        {isJunction && <CommandButton id="traffic-sheet">By traffic</CommandButton>}
        {isJunction && <CommandButton id="wave-sheet" />}
        <CommandButton id="take-away">Take away</CommandButton>
      </p>
    </section>
  );
}

function FixedDials({ site }: { readonly site: OpenSite }) {
  const fixed = site.program.dials.flatMap(({ min, max }, dial) => (min === max ? [dial] : []));
  if (fixed.length === 0) return null;
  return (
    <ul class="fixed-dials" aria-label="Times that stand still">
      {fixed.map((dial) => (
        <FixedDial key={dial} site={site} dial={dial} />
      ))}
    </ul>
  );
}

function SiteFindings({ site }: { readonly site: OpenSite }) {
  const { model } = usePanel();
  const findings = findingsOfSite(model.open.value.findings, site.index);
  if (findings.length === 0) return null;
  return (
    <p class="site-findings">
      {findings.length === 1 ? findings[0]?.what : `${findings.length} findings: see at the desk.`}
    </p>
  );
}

/** An empty place says what to do first. */
function NoSite() {
  return (
    <section class="site-panel empty" aria-label="Site at hand">
      <h2>No site to show</h2>
      <p>Open a layout that has no errors, or the example.</p>
      <div class="row">
        <CommandButton id="open-file" />
        <CommandButton id="open-example" />
      </div>
    </section>
  );
}

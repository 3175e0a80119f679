import { usePanel } from '../model/context.ts';
import { ArrangePanel } from '../plan/arrange/panel.tsx';
import { Plan } from '../plan/plan.tsx';
import { SitePanel } from '../site/site-panel.tsx';
import { PhaseStrip } from '../strip/strip.tsx';

/** At the layout: the site at hand with its dials, the plan and the cycle beside it. */
export function LayoutView() {
  const { model } = usePanel();
  const site = model.siteAtHand.value;
  return (
    <main class="view layout">
      <div class="left">
        <Plan />
        {site && <PhaseStrip key={site.id} site={site} />}
      </div>
      {model.plan.arranging.value ? <ArrangePanel /> : <SitePanel />}
    </main>
  );
}

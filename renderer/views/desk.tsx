import { BoardPanel } from '../board/board-panel.tsx';
import { CommandButton } from '../commands/button.tsx';
import { FileWords } from '../files/file-state.tsx';
import { FindingsList } from '../findings/findings-list.tsx';
import { SessionLog } from '../log/log.tsx';
import { usePanel } from '../model/context.ts';
import { Plan } from '../plan/plan.tsx';
import { RunningNow } from '../site/running-now.tsx';
import { PhaseStrip } from '../strip/strip.tsx';

/** At the desk: file, findings, boards and log; plan and cycle stay in sight. */
export function DeskView() {
  const { model } = usePanel();
  const site = model.siteAtHand.value;
  // What is wrong comes first; that nothing is wrong can wait.
  const hasFindings = model.open.value.findings.length > 0;
  return (
    <main class="view desk">
      <div class="left">
        <Plan />
        {site && <RunningNow key={`${site.id} now`} site={site} />}
        {site && <PhaseStrip key={site.id} site={site} />}
        <p class="site-more">
          <CommandButton id="phases-sheet" />
          <CommandButton id="traffic-sheet" />
          <CommandButton id="wave-sheet" />
          <CommandButton id="plan-wiring" />
          <CommandButton id="scale-sheet" />
        </p>
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
      <div class="desk-column" tabIndex={0}>
        {hasFindings && <FindingsList />}
        <BoardPanel />
        <section class="file" aria-label="Layout file">
          <h2>{model.open.value.file}</h2>
          <FileWords />
          <CommandButton id="new-layout" />
          <CommandButton id="layouts" />
          <CommandButton id="open-file" />
          <CommandButton id="save-layout" />
          <CommandButton id="save-as" />
          <CommandButton id="go-back-saved" />
          <CommandButton id="open-example" />
          <CommandButton id="new-site" />
          <CommandButton id="copy-site" />
          <CommandButton id="keep-template" />
          <CommandButton id="take-away" />
          <CommandButton id="wiring-sheet" />
        </section>
        <section class="file" aria-label="Lamps and wires">
          <h2>Lamps and wires</h2>
          <CommandButton id="lamp-check" />
          <CommandButton id="find-wiring" />
          <CommandButton id="practise" />
        </section>
        {!hasFindings && <FindingsList />}
      </div>
      <SessionLog />
    </main>
  );
}

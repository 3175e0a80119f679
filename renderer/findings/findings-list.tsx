import { usePanel } from '../model/context.ts';

const SEVERITY = { error: 'Error', warning: 'Warning', note: 'Note' } as const;

/** Everything that is wrong with the open layout, with its cure. Press one to go to its site. */
export function FindingsList() {
  const { model } = usePanel();
  const { findings, sites, file } = model.open.value;
  return (
    <section class="findings" aria-label="Findings">
      <h2>{findings.length === 0 ? 'No findings' : `Findings: ${findings.length}`}</h2>
      {findings.length === 0 && <p>{file} is in order.</p>}
      <ul>
        {findings.map((finding) => {
          const index = Number(/^sites\[(\d+)\]/.exec(finding.path)?.[1] ?? Number.NaN);
          const site = sites.find((it) => it.index === index);
          return (
            <li key={`${finding.path} ${finding.code}`} class={`finding ${finding.severity}`}>
              <p class="finding-what">
                <b>{SEVERITY[finding.severity]}.</b> {finding.what}
              </p>
              <p>{finding.why}</p>
              <p class="finding-cure">{finding.cure}</p>
              <p class="finding-path">
                {finding.path === '' ? 'the whole file' : finding.path}
                {site && (
                  <button type="button" class="button small" onClick={() => model.choose(site.id)}>
                    Show {site.names.name}
                  </button>
                )}
              </p>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

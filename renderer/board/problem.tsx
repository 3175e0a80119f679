import type { Problem } from '../../shared/workbench/contract.ts';

/** What happened, the likely cause, the next step. */
export function ProblemText({ problem }: { readonly problem: Problem }) {
  return (
    <div class="problem" data-problem={problem.code}>
      <p class="problem-what">{problem.what}</p>
      <p>{problem.why}</p>
      <p class="problem-next">{problem.next}</p>
      {problem.detail && (
        <details>
          <summary>Details</summary>
          <code>{problem.detail}</code>
        </details>
      )}
    </div>
  );
}

/** Where the page begins: find the host, draw the panel, keep it up when the host comes and goes. */
import type { Workbench } from '../shared/workbench/contract.ts';
import { describeProblem, problem } from '../shared/workbench/problems.ts';
import type { Model } from './model/model.ts';
import { mount } from './mount.tsx';
import { reachHost } from './transport.ts';

/** Stands in until the host is found: the panel says that it is away instead of showing an empty page. */
const NOBODY: Workbench = { call: async () => problem('hostGone', {}), on: () => () => {} };

const into = document.getElementById('panel');
let model: Model | null = null;

if (into) {
  reachHost(
    (workbench) => {
      if (model) void model.attach(workbench);
      else model = mount(workbench, into);
    },
    () => {
      model ??= mount(NOBODY, into);
      model.lose(describeProblem('hostGone', {}));
    },
  );
}

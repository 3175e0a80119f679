/** The panel alone in a browser, on the fake host: `npx vite test/panel/page`. */
import { mount } from '../../../renderer/mount.tsx';
import penmarrow from '../../../shared/layout/examples/penmarrow.json?raw';
import { FakeWorkbench } from '../fake-workbench.ts';

const host = new FakeWorkbench(penmarrow);
host.startExample();
const into = document.getElementById('panel');
if (into) {
  const model = mount(host, into);
  let last = performance.now();
  setInterval(() => {
    const now = performance.now();
    const speed = host.boards[0]?.speed ?? 1;
    host.advance(Math.round((now - last) * (speed === 0 ? 1000 : speed)));
    last = now;
  }, 10);
  Object.assign(window, { host, model });
}

/** A host in a process of its own, so that it can be killed. Arguments: folder of the panel, folder of data. */
import { serve } from '../../electron/host/serve.ts';

const [panelFolder = '', dataFolder = ''] = process.argv.slice(2);
const served = await serve({
  version: '0.0.0',
  panelFolder,
  dataFolder,
  print: () => {},
  serial: {
    list: async () => [],
    open: async (path) => ({ ok: false, error: { kind: 'missing', detail: `cannot open ${path}` } }),
  },
});
if (!served.ok) throw new Error(served.error);
process.send?.(served.address);

// Nobody is there to kill it any more.
process.on('disconnect', () => process.exit());

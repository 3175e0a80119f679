/** `amberwick ports`: the serial ports of this computer, likely boards first. */
import { listPorts } from '../../electron/host/ports.ts';
import { columns, type Report } from './output.ts';

export async function ports(): Promise<Report> {
  const found = await listPorts();
  return {
    exit: 0,
    data: { ports: found },
    text: columns(found.map(({ path, label, likely }) => [path, label, likely ? 'likely a board' : ''])),
  };
}

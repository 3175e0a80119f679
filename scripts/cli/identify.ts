/** `amberwick identify`: who is at a port, what it runs and how it is. */
import { requestProblem } from '../../electron/host/service/failures.ts';
import { ask } from '../../shared/link/requests.ts';
import { type PortOptions, withBoard } from './connect.ts';
import { columns, type Report } from './output.ts';

const hex4 = (value: number | null): string =>
  value === null ? 'none' : value.toString(16).toUpperCase().padStart(4, '0');

export function identify(options: PortOptions): Promise<Report> {
  return withBoard(options, null, async ({ session, who }) => {
    const caps = await session.request(ask.caps());
    if (!caps.ok) return { exit: 1, problem: requestProblem(caps.error, { port: options.port }) };
    const state = await session.request(ask.state());
    if (!state.ok) return { exit: 1, problem: requestProblem(state.error, { port: options.port }) };
    const flags = [...state.value.flags];
    return {
      exit: 0,
      data: {
        who: { ...who, shape: who.shape === null ? null : hex4(who.shape) },
        capacities: caps.value,
        state: { ...state.value, flags },
      },
      text: columns([
        ['name', who.name || '-'],
        ['identity', who.identity],
        ['chip', who.chip],
        ['firmware', `${who.firmware} (protocol ${who.protocol}, store ${who.store})`],
        ['table hash', hex4(who.shape)],
        ['holds', `${caps.value.image} bytes, ${caps.value.lamps} lamps, ${caps.value.sites} sites`],
        ['up for', `${state.value.seconds} s, started by ${state.value.cause}`],
        ['supply', `${state.value.millivolts} mV`],
        ['stack never used', `${state.value.stack} bytes`],
        ['kept', `${state.value.keeps} times`],
        ['flags', flags.join(', ') || 'none'],
      ]),
    };
  });
}

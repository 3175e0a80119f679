/** The firmware's core in a process of its own: commands in, what it printed between two marks out. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';

/** Runs batches of commands, each on a new board; gives the printed lines of each batch in order. */
export async function* runCore(executable: string, batches: Iterable<readonly string[]>): AsyncGenerator<string[]> {
  const core = spawn(executable, [], { stdio: ['pipe', 'pipe', 'inherit'] });
  const lines = createInterface({ input: core.stdout })[Symbol.asyncIterator]();
  try {
    for (const commands of batches) {
      core.stdin.write(`${commands.join('\n')}\nsay done\n`);
      const printed: string[] = [];
      for (;;) {
        const { value, done } = await lines.next();
        if (value === '# done') break;
        if (done) throw new Error(`the core ended: ${printed.at(-1) ?? 'nothing printed'}`);
        printed.push(value);
      }
      yield printed;
    }
  } finally {
    core.stdin.end();
    if (core.exitCode === null) await once(core, 'close');
  }
}

export const hexOf = (bytes: Uint8Array) => Buffer.from(bytes).toString('hex').toUpperCase();

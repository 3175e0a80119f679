/** The town on the firmware's core: commands in, lines out, an hour at a time. */
import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import type { Chip } from '../../shared/table/format.ts';
import { buildYears } from './build.ts';

export class Core {
  private readonly child;
  private readonly lines;

  constructor(chip: Chip) {
    this.child = spawn(buildYears(chip), [], { stdio: ['pipe', 'pipe', 'inherit'] });
    this.lines = createInterface({ input: this.child.stdout })[Symbol.asyncIterator]();
  }

  send(commands: readonly string[]): void {
    this.child.stdin.write(`${commands.join('\n')}\n`);
  }

  /** What was printed up to the next sum, that line included. Throws when the core did what it must not. */
  async upToSum(): Promise<string[]> {
    const printed: string[] = [];
    for (;;) {
      const { value, done } = await this.lines.next();
      if (done) throw new Error(`the core ended: ${printed.at(-1) ?? 'nothing printed'}`);
      printed.push(value);
      if (value.startsWith('sum ')) return printed;
    }
  }

  close(): void {
    this.child.stdin.end();
  }
}

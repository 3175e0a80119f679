/** Inputs of one board: numbers for ids. */
import type { Finding } from '../findings/finding.ts';
import { error } from '../findings/make.ts';
import type { Board, Input } from '../layout/outputs.ts';
import type { Layout } from '../layout/schema.ts';

export class Inputs {
  readonly findings: Finding[] = [];
  /** Inputs of this board with their place in the document. */
  readonly list: readonly { readonly input: Input; readonly path: string }[];
  private readonly layout: Layout;
  private readonly board: Board;

  constructor(layout: Layout, board: Board) {
    this.layout = layout;
    this.board = board;
    this.list = (layout.inputs ?? []).flatMap((input, index) =>
      input.board === board.id ? [{ input, path: `inputs[${index}]` }] : [],
    );
  }

  /** Board number of an input, or null with a finding. */
  number(id: string, path: string): number | null {
    const index = this.list.findIndex(({ input }) => input.id === id);
    if (index >= 0) return index;
    const elsewhere = this.layout.inputs?.find((input) => input.id === id);
    if (elsewhere === undefined) {
      this.findings.push(
        error('unknown-input', path, {
          what: `The layout has no input "${id}".`,
          why: 'A site can only wait for an input that is wired somewhere.',
          cure: 'Add it to the inputs, or use the id of one that is there.',
        }),
      );
    } else {
      this.findings.push(
        error('input-on-other-board', path, {
          what: `The input "${id}" is wired to another board than ${this.board.name}.`,
          why: 'Boards do not hear each other.',
          cure: `Wire it to ${this.board.name}, or move the site.`,
        }),
      );
    }
    return null;
  }
}

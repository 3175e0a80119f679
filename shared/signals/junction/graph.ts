/**
 * What a junction does, as a graph: intervals, actions and questions, each with
 * what comes next. Two nodes that do and lead to the same are one, so that
 * changes which end alike share their end.
 */
import type { Interval } from '../../table/model.ts';

export type NodeId = number;

export type Node =
  | { readonly is: 'interval'; readonly row: Interval; readonly label: string; readonly next: NodeId }
  | { readonly is: 'clear'; readonly inputs: readonly number[]; readonly label: string; readonly next: NodeId }
  /** Has any of these inputs a demand? */
  | {
      readonly is: 'ask';
      readonly inputs: readonly number[];
      readonly label: string;
      readonly yes: NodeId;
      readonly no: NodeId;
    };

export class Graph {
  private readonly nodes: (Node | null)[] = [];
  private readonly ids = new Map<string, NodeId>();

  /** A node to be filled in later, so that ways can lead back to it. */
  reserve(): NodeId {
    this.nodes.push(null);
    return this.nodes.length - 1;
  }

  fill(id: NodeId, node: Node): void {
    this.nodes[id] = node;
  }

  /** The node, or the one that does the same already. */
  add(node: Node): NodeId {
    if (node.is === 'ask' && node.yes === node.no) return node.yes;
    const key = JSON.stringify({ ...node, label: '' });
    const known = this.ids.get(key);
    if (known !== undefined) return known;
    const id = this.nodes.push(node) - 1;
    this.ids.set(key, id);
    return id;
  }

  node(id: NodeId): Node | null {
    return this.nodes[id] ?? null;
  }
}

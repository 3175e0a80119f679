/**
 * Lays a graph out as rows: one row a node, and a jump wherever what comes next
 * stands elsewhere. Of several orders the one with the fewest rows is taken.
 */
import type { Condition, Row } from '../../table/model.ts';
import type { Graph, Node, NodeId } from './graph.ts';

export interface LaidRow {
  readonly row: Row;
  readonly label: string;
}

/** The graph's rows, `root` in row 0. */
export function layOut(graph: Graph, root: NodeId): LaidRow[] {
  const orders = [true, false].flatMap((yesFirst) =>
    [true, false].map((lastFirst) => joined(chainsOf(graph, root, yesFirst, lastFirst), root)),
  );
  const tables = orders.map((chains) => rowsOf(graph, chains, root));
  return tables.reduce((best, rows) => (rows.length < best.length ? rows : best));
}

/** Nodes that follow each other row by row, and where the last of them leads. */
interface Chain {
  readonly nodes: readonly NodeId[];
  readonly to: NodeId;
}

function chainsOf(graph: Graph, root: NodeId, yesFirst: boolean, lastFirst: boolean): Chain[] {
  const placed = new Set<NodeId>();
  const pending = [root];
  const chains: Chain[] = [];
  while (pending.length > 0) {
    const start = (lastFirst ? pending.pop() : pending.shift()) ?? root;
    const nodes: NodeId[] = [];
    let id = start;
    while (!placed.has(id)) {
      const node = graph.node(id);
      if (node === null) break;
      placed.add(id);
      nodes.push(id);
      if (node.is !== 'ask') id = node.next;
      else {
        const [first, second] = yesFirst ? [node.yes, node.no] : [node.no, node.yes];
        const next = placed.has(first) ? second : first;
        pending.push(next === first ? second : first);
        id = next;
      }
    }
    if (nodes.length > 0) chains.push({ nodes, to: id });
  }
  return chains;
}

/** Chains put behind each other where one leads to the head of another; the way back to the root comes last. */
function joined(chains: readonly Chain[], root: NodeId): Chain[] {
  const list = [...chains];
  for (;;) {
    const at = list.findIndex((one) =>
      list.some((other) => other !== one && other.nodes[0] === one.to && one.to !== root),
    );
    if (at < 0) break;
    const one = list[at];
    const next = list.findIndex((other) => other !== one && other.nodes[0] === one?.to);
    const other = list[next];
    if (one === undefined || other === undefined) break;
    list[at] = { nodes: [...one.nodes, ...other.nodes], to: other.to };
    list.splice(next, 1);
  }
  const first = list.filter((chain) => chain.nodes[0] === root);
  const rest = list.filter((chain) => chain.nodes[0] !== root);
  const wraps = rest.findIndex((chain) => chain.to === root);
  if (wraps >= 0) rest.push(...rest.splice(wraps, 1));
  return [...first, ...rest];
}

type Target = { readonly to: NodeId };
type Draft = { readonly row: Row | (Target & { readonly when: Condition }); readonly label: string };

const ALWAYS: Condition = { kind: 'noDemand', inputs: [] };

function rowsOf(graph: Graph, chains: readonly Chain[], root: NodeId): LaidRow[] {
  const drafts: Draft[] = [];
  const places = new Map<NodeId, number>();
  chains.forEach((chain, index) => {
    chain.nodes.forEach((id, at) => {
      places.set(id, drafts.length);
      const node = graph.node(id);
      if (node !== null) drafts.push(draft(node, chain.nodes[at + 1] ?? chain.to));
    });
    // After the last row the board goes on with row 0 by itself.
    if (index === chains.length - 1 && chain.to === root) return;
    drafts.push({ row: { when: ALWAYS, to: chain.to }, label: 'Go on' });
  });
  return drafts.map(({ row, label }) =>
    'op' in row ? { row, label } : { row: { op: 'jump', when: row.when, to: places.get(row.to) ?? 0 }, label },
  );
}

/** `next` is what the row after this one does. */
function draft(node: Node, next: NodeId): Draft {
  switch (node.is) {
    case 'interval':
      return { row: node.row, label: node.label };
    case 'clear':
      return { row: { op: 'clear', inputs: node.inputs }, label: node.label };
    case 'ask': {
      const jumpsOnYes = next === node.no;
      const when: Condition = { kind: jumpsOnYes ? 'demand' : 'noDemand', inputs: node.inputs };
      return { row: { when, to: jumpsOnYes ? node.yes : node.no }, label: node.label };
    }
  }
}

/** A reader of the XML that drawings are made of: elements, attributes in quotes, text. Throws at anything else. */
export interface Node {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Node[];
  /** Of the element itself and all in it. */
  readonly text: string;
}

const TOKEN = /<(\/?)([A-Za-z][\w-]*)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>|([^<]+)/y;

interface Open {
  readonly name: string;
  readonly attributes: Record<string, string>;
  readonly children: Node[];
  text: string;
}

export function parseXml(source: string): Node {
  const root: Open = { name: '', attributes: {}, children: [], text: '' };
  const open: Open[] = [root];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < source.length) {
    const at = TOKEN.lastIndex;
    const token = TOKEN.exec(source);
    if (token === null) throw new Error(`not XML at ${at}: ${source.slice(at, at + 60)}`);
    const [, isEnd, name = '', attributes = '', isEmpty, text] = token;
    const here = open.at(-1) as Open;
    if (text !== undefined) here.text += plain(text);
    else if (isEnd === '/') {
      if (here.name !== name) throw new Error(`</${name}> ends <${here.name}>`);
      close(open);
    } else {
      const pairs = [...attributes.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, key, value]) => [key, plain(value ?? '')]);
      if (new Set(pairs.map(([key]) => key)).size < pairs.length) throw new Error(`<${name}> has an attribute twice`);
      open.push({ name, attributes: Object.fromEntries(pairs), children: [], text: '' });
      if (isEmpty === '/') close(open);
    }
  }
  if (open.length !== 1 || root.children.length !== 1) throw new Error('not one whole element');
  return root.children[0] as Node;
}

function close(open: Open[]): void {
  const done = open.pop() as Open;
  const above = open.at(-1) as Open;
  above.children.push(done);
  above.text += done.text;
}

function plain(text: string): string {
  if (/&(?!amp;|lt;|gt;|quot;)/.test(text)) throw new Error(`bare & in ${text}`);
  return text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&');
}

/** All elements of a class, in order. */
export function byClass(node: Node, name: string): Node[] {
  const own = (node.attributes.class ?? '').split(' ').includes(name) ? [node] : [];
  return [...own, ...node.children.flatMap((child) => byClass(child, name))];
}

export function byName(node: Node, name: string): Node[] {
  return [...(node.name === name ? [node] : []), ...node.children.flatMap((child) => byName(child, name))];
}

/** What stands written, without the hints of pointers. */
export function written(node: Node): string {
  if (node.name !== 'text') return node.children.map(written).join('');
  return node.text.slice(node.children.reduce((sum, child) => sum + child.text.length, 0));
}

export const num = (node: Node, attribute: string): number => Number(node.attributes[attribute]);

/** Files that are dropped anywhere on the window, each kind to whoever can take it. */

export type DropKind = 'layout' | 'picture';

/** `at`: where it was let go, CSS pixels of the window. */
export type DropHandler = (file: File, at: { readonly x: number; readonly y: number }) => void | Promise<void>;

/** Larger ones are refused before they are read, bytes: a layout has some thousand. */
const LARGEST: Readonly<Record<DropKind, number>> = { layout: 4_000_000, picture: 10_000_000 };

const handlers = new Map<DropKind, DropHandler>();

/** One handler a kind; gives back a function that takes it away again. */
export function onDrop(kind: DropKind, handler: DropHandler): () => void {
  handlers.set(kind, handler);
  return () => {
    if (handlers.get(kind) === handler) handlers.delete(kind);
  };
}

/** By its type, or where the system gives none by its name. Null: nothing that this app can use. */
export function kindOf({ name, type }: { readonly name: string; readonly type: string }): DropKind | null {
  if (/^image\/(png|jpeg|webp)$/.test(type) || /\.(png|jpe?g|webp)$/i.test(name)) return 'picture';
  if (type === 'application/json' || /\.(amberwick|json)$/i.test(name)) return 'layout';
  return null;
}

export interface DropTarget {
  /** Something is held over the window: `true` while it can be let go here. */
  over(isOver: boolean): void;
  refused(what: string, why: string, next: string): void;
}

/** Hears drops on the whole window; gives back a function that ends it. */
export function listenForDrops(window: Window, target: DropTarget): () => void {
  // A drag enters each element that it passes; it is over the window until it has left them all.
  let depth = 0;
  const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
  const leave = (): void => {
    depth = 0;
    target.over(false);
  };
  const onEnter = (event: DragEvent): void => {
    if (!hasFiles(event)) return;
    depth += 1;
    target.over(true);
  };
  const onLeave = (event: DragEvent): void => {
    if (!hasFiles(event)) return;
    depth = Math.max(0, depth - 1);
    if (depth === 0) target.over(false);
  };
  const onOver = (event: DragEvent): void => {
    // Without this the browser would open the file in the place of the panel.
    if (hasFiles(event)) event.preventDefault();
  };
  const onLetGo = (event: DragEvent): void => {
    if (!hasFiles(event)) return;
    // Something under the pointer may have taken it already.
    const isTaken = event.defaultPrevented;
    event.preventDefault();
    leave();
    if (isTaken) return;
    const files = [...(event.dataTransfer?.files ?? [])];
    take(files, { x: event.clientX, y: event.clientY }, target);
  };
  const events = { dragenter: onEnter, dragleave: onLeave, dragover: onOver, drop: onLetGo } as const;
  for (const [name, hear] of Object.entries(events)) window.addEventListener(name, hear as EventListener);
  return () => {
    for (const [name, hear] of Object.entries(events)) window.removeEventListener(name, hear as EventListener);
  };
}

/** The first file counts: there is one layout and one picture under it. */
export function take(files: readonly File[], at: { readonly x: number; readonly y: number }, target: DropTarget): void {
  const [file] = files;
  if (!file) return;
  const kind = kindOf(file);
  const handler = kind && handlers.get(kind);
  if (!kind || !handler) {
    const next = 'Drop a layout file, or a PNG, JPEG or WebP picture to lie under the plan.';
    target.refused(`${file.name} was not taken.`, 'It is neither a layout nor a picture.', next);
    return;
  }
  if (file.size > LARGEST[kind]) {
    const most = `${LARGEST[kind] / 1_000_000} MB`;
    target.refused(`${file.name} was not taken.`, `It is larger than ${most}.`, 'Drop a smaller file.');
    return;
  }
  void handler(file, at);
}

/** What runs inside the page for `living-window.ts`: Electron's part of a preload's world and of the page's. */

export const WORLD = 'preload';

/** What a page gets whose window was made with Node in it. */
export const NODE_FOR_PAGES = `
  window.process = { versions: { node: '0' } };
  window.require = (name) => ({ name });
`;

interface PreloadPlace {
  /** Name of the function that reaches the main program. */
  readonly binding: string;
  readonly everywhere: boolean;
  /** The preload has a world of its own; else it shares the page's. */
  readonly isolated: boolean;
}

/** The preload behind a `require` that knows Electron alone, as the sandbox has it. */
export function preloadScript(preload: string, { binding, everywhere, isolated }: PreloadPlace): string {
  return `(() => {
  if (window !== window.top && !${everywhere}) return;
  const toMain = globalThis.${binding};
  const listeners = new Map();
  const waiting = new Map();
  let next = 1;
  globalThis.standInFromMain = (text) => {
    const message = JSON.parse(text);
    if (message.event !== undefined) {
      for (const listener of listeners.get(message.event) ?? []) listener({ sender: 'secret' }, ...message.args);
      return;
    }
    const { settle, fail } = waiting.get(message.answer);
    waiting.delete(message.answer);
    if (message.error !== undefined) fail(new Error(message.error));
    else settle(message.value);
  };
  const ipcRenderer = {
    on: (channel, listener) => listeners.set(channel, [...(listeners.get(channel) ?? []), listener]),
    invoke: (channel, ...args) => new Promise((settle, fail) => {
      const id = next++;
      waiting.set(id, { settle, fail });
      toMain(JSON.stringify({ id, channel, args }));
    }),
  };
  const say = (name, detail) => document.dispatchEvent(new CustomEvent('stand-in-' + name, { detail: JSON.stringify(detail) }));
  const exposed = {};
  const kept = new Map();
  const contextBridge = {
    exposeInMainWorld: (name, api) => {
      if (!${isolated}) { window[name] = api; return; }
      exposed[name] = api;
      say('exposed', { name, functions: Object.keys(api) });
    },
  };
  const across = (value) => {
    if (typeof value !== 'function') return { value };
    kept.set(next, value);
    return { kept: next++ };
  };
  document.addEventListener('stand-in-hello', () => {
    for (const [name, api] of Object.entries(exposed)) say('exposed', { name, functions: Object.keys(api) });
  });
  document.addEventListener('stand-in-call', ({ detail }) => {
    const { id, name, part, args, again } = JSON.parse(detail);
    const real = args.map((arg) => arg.callback === undefined ? arg.value
      : (...data) => say('callback', { callback: arg.callback, data }));
    const result = again === undefined ? exposed[name][part](...real) : kept.get(again)(...real);
    if (result instanceof Promise) {
      say('answer', { id, later: true });
      result.then((value) => say('settled', { id, ...across(value) }), (error) => say('settled', { id, error: String(error) }));
    } else say('answer', { id, ...across(result) });
  });
  const electron = { contextBridge, ipcRenderer };
  const require = (name) => {
    if (name === 'electron') return electron;
    throw new Error('module not found: ' + name);
  };
  const module = { exports: {} };
  (function (require, module, exports) {
${preload}
  })(require, module, module.exports);
})();`;
}

/** The page's side: functions that the preload exposes, and nothing of its world. */
export function bridgeScript(everywhere: boolean): string {
  return `(() => {
  if (window !== window.top && !${everywhere}) return;
  const callbacks = new Map();
  const promises = new Map();
  let next = 1;
  let answer = null;
  const hear = (name, listener) => document.addEventListener('stand-in-' + name, ({ detail }) => listener(JSON.parse(detail)));
  const backFrom = ({ value, kept }) => kept === undefined ? value : (...args) => call({ again: kept }, args);
  const call = (target, args) => {
    const id = next++;
    const sent = args.map((arg) => {
      if (typeof arg !== 'function') return { value: arg };
      callbacks.set(next, arg);
      return { callback: next++ };
    });
    answer = null;
    document.dispatchEvent(new CustomEvent('stand-in-call', { detail: JSON.stringify({ id, ...target, args: sent }) }));
    if (!answer?.later) return backFrom(answer ?? {});
    return new Promise((settle, fail) => promises.set(id, { settle, fail }));
  };
  hear('answer', (told) => { answer = told; });
  hear('settled', (told) => {
    const { settle, fail } = promises.get(told.id) ?? {};
    promises.delete(told.id);
    if (told.error !== undefined) fail?.(new Error(told.error));
    else settle?.(backFrom(told));
  });
  hear('callback', ({ callback, data }) => callbacks.get(callback)?.(...data));
  hear('exposed', ({ name, functions }) => {
    if (Object.hasOwn(window, name)) return;
    const api = Object.fromEntries(functions.map((part) => [part, (...args) => call({ name, part }, args)]));
    Object.defineProperty(window, name, { value: Object.freeze(api) });
  });
  document.dispatchEvent(new CustomEvent('stand-in-hello', { detail: '{}' }));
})();`;
}

import { signal } from '@preact/signals';
import { describe, expect, it, vi } from 'vitest';
import { menuTemplate } from '../../electron/shell/menu-template.ts';
import { COMMANDS } from '../../renderer/commands/all.ts';
import { type Command, command } from '../../renderer/commands/command.ts';
import type { Model } from '../../renderer/model/model.ts';
import type { Surface } from '../../renderer/model/surface.ts';
import { joinMenus } from '../../renderer/shell-menus.ts';
import { type Menus, SHELL_CALLS } from '../../shared/workbench/calls/shell.ts';
import type { Workbench } from '../../shared/workbench/contract.ts';
import type { StandInMenuItem } from './stand-in.ts';

const item = (id: string, more: Partial<Exclude<Menus[number]['items'][number], 'line'>> = {}) => ({
  ...{ id, label: id, shortcut: null, enabled: true },
  ...more,
});

const MENUS: Menus = [
  {
    title: 'File',
    items: ['line', item('open', { label: 'Open a file', shortcut: 'O' }), 'line', 'line', item('save'), 'line'],
  },
  { title: 'Edit', items: [item('undo', { label: 'Undo: added A & B', shortcut: 'Ctrl+Z' }), item('redo')] },
  { title: 'Board', items: [item('pause', { checked: true, enabled: false, shortcut: 'P' })] },
  { title: 'Help', items: [item('help', { shortcut: '?' }), item('about', { label: 'About and licences' })] },
];

function made(platform: NodeJS.Platform, menus = MENUS) {
  const chosen: string[] = [];
  const edited: string[] = [];
  const template = menuTemplate(menus, {
    ...{ platform, appName: 'Amberwick' },
    choose: (id) => chosen.push(id),
    editText: (which) => edited.push(which),
  }) as readonly StandInMenuItem[];
  const all = template.flatMap(({ submenu }) => submenu ?? []);
  const find = (id: string): StandInMenuItem => all.find((it) => it.id === id) ?? {};
  return { template, chosen, edited, find };
}

/** A menu as it reads: labels, roles, lines. */
const words = ({ submenu }: StandInMenuItem = {}): unknown =>
  submenu?.map(({ label, role, type }) => label ?? role ?? (type === 'separator' ? '-' : '?'));

describe('the menus of the system', () => {
  it('have the order and the extras of Windows and Linux', () => {
    const { template } = made('linux');
    expect(template.map(({ label }) => label)).toEqual(['&File', '&Edit', '&View', '&Board', '&Help']);
    expect(template.map(words)).toEqual([
      ['Open a file', '-', 'save', '-', 'quit'],
      ['Undo: added A && B', 'redo', '-', 'cut', 'copy', 'paste', 'selectAll'],
      ['resetZoom', 'zoomIn', 'zoomOut', '-', 'togglefullscreen'],
      ['pause'],
      ['help (?)', 'About and licences'],
    ]);
  });

  it('have those of macOS: the menu of the app with About, and one for windows', () => {
    const { template } = made('darwin');
    expect(template.map(({ label, role }) => label ?? role)).toEqual([
      ...['Amberwick', 'File', 'Edit', 'View', 'Board', 'windowMenu', 'Help'],
    ]);
    expect(words(template[0])).toEqual([
      ...['About Amberwick', '-', 'services', '-', 'hide', 'hideOthers', 'unhide', '-', 'quit'],
    ]);
    expect(words(template[1])).toEqual(['Open a file (O)', '-', 'save', '-', 'close']);
    expect(words(template[6])).toEqual(['help (?)']);
  });

  it('are those of the system alone before the panel has spoken', () => {
    expect(made('win32', []).template.map(({ label }) => label)).toEqual(['&File', '&Edit', '&View']);
    expect(words(made('darwin', []).template[0])).toContain('about');
  });

  it('show keys without taking them from the page, but for macOS, where a key without a character is live', () => {
    expect(made('linux').find('open')).toMatchObject({ accelerator: 'O', registerAccelerator: false });
    expect(made('win32').find('undo')).toMatchObject({ accelerator: 'CmdOrCtrl+Z', registerAccelerator: false });
    const mac = made('darwin');
    expect(mac.find('undo').accelerator).toBe('CmdOrCtrl+Z');
    for (const id of ['open', 'pause', 'help']) expect(mac.find(id)).not.toHaveProperty('accelerator');
    // On every platform: no key that writes a character is registered with the system.
    for (const platform of ['linux', 'win32', 'darwin'] as const) {
      const menus = [{ title: 'File', items: COMMANDS.slice(0, 60).map(({ id, shortcut }) => item(id, { shortcut })) }];
      const live = made(platform, menus).template.flatMap(({ submenu }) => submenu ?? []);
      const keys = live.flatMap((it) => (it.accelerator && it.registerAccelerator !== false ? [it.accelerator] : []));
      expect(keys.filter((key) => !/^(CmdOrCtrl\+|F\d)/.test(key))).toEqual([]);
    }
  });

  it('show what is on and what cannot be done', () => {
    expect(made('linux').find('pause')).toMatchObject({ type: 'checkbox', checked: true, enabled: false });
    expect(made('linux').find('save')).not.toHaveProperty('checked');
  });

  it('tell what was chosen; undo by its key in a text undoes the typing', () => {
    const { find, chosen, edited } = made('darwin');
    find('undo').click?.({}, {}, { triggeredByAccelerator: true });
    find('undo').click?.({}, {}, {});
    find('save').click?.({}, {}, { triggeredByAccelerator: true });
    expect([chosen, edited]).toEqual([['undo', 'save'], ['undo']]);
  });
});

describe('the panel behind them', () => {
  const can = signal(false);
  const shell = signal<'electron' | 'browser'>('electron');
  const done: string[] = [];
  const commands: Command[] = [
    command({
      ...{ id: 'keep', label: 'Keep', hint: 'Keeps it.', shortcut: 'K', menu: 'Board' },
      when: () => can.value,
      run: () => void done.push('keep'),
    }),
    command({
      ...{ id: 'theme', label: 'Dark', hint: 'Dark.', shortcut: null, menu: 'View', line: true },
      name: () => 'Light or dark',
      checked: () => can.value,
      when: () => true,
      run: () => void done.push('theme'),
    }),
    command({ id: 'beside', label: 'Beside', hint: 'A button.', shortcut: null, when: () => true, run: () => {} }),
  ];

  const join = () => {
    const told: Menus[] = [];
    let choose = (_: { id: string }): void => {};
    const workbench = {
      call: async (_: string, { menus }: { menus: Menus }) => {
        told.push(menus);
        return { ok: true, value: null };
      },
      on: (_: string, listener: typeof choose) => {
        choose = listener;
        return () => {};
      },
    } as unknown as Workbench;
    const model = {
      host: {
        get value() {
          return { shell: shell.value, version: '1.2.3' };
        },
      },
    } as unknown as Model;
    const end = joinMenus(workbench, model, {} as Surface, commands);
    return { told, end, choose: (id: string) => choose({ id }) };
  };

  it('names its commands, and names them again when what can be done has changed', async () => {
    vi.useFakeTimers();
    const { told, end } = join();
    await vi.advanceTimersByTimeAsync(60);
    const theme = { id: 'theme', label: 'Light or dark', shortcut: null, enabled: true };
    const keep = { id: 'keep', label: 'Keep', shortcut: 'K' };
    const first = [
      { title: 'View', items: ['line', { ...theme, checked: false }] },
      { title: 'Board', items: [{ ...keep, enabled: false }] },
    ];
    expect(told).toEqual([first]);
    can.value = true;
    can.value = false;
    await vi.advanceTimersByTimeAsync(60);
    expect(told).toHaveLength(1);
    can.value = true;
    await vi.advanceTimersByTimeAsync(60);
    expect(told[1]?.[1]).toEqual({ title: 'Board', items: [{ ...keep, enabled: true }] });
    end();
    can.value = false;
    await vi.advanceTimersByTimeAsync(60);
    expect(told).toHaveLength(2);
    vi.useRealTimers();
  });

  it('does what was chosen, if it can still be done', () => {
    const { choose, end } = join();
    for (const id of ['keep', 'theme', 'erase']) choose(id);
    can.value = true;
    choose('keep');
    expect(done).toEqual(['theme', 'keep']);
    end();
  });

  it('fills nothing in a browser', async () => {
    vi.useFakeTimers();
    shell.value = 'browser';
    const { told, end } = join();
    await vi.advanceTimersByTimeAsync(200);
    expect(told).toEqual([]);
    end();
    vi.useRealTimers();
  });

  it('has labels and keys that the call takes', () => {
    const items = COMMANDS.map(({ id, label, shortcut }) => item(id, { label, shortcut }));
    for (const one of items)
      expect(SHELL_CALLS.setMenus.safeParse({ menus: [{ title: 'File', items: [one] }] }).success).toBe(true);
  });
});

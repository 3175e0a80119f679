/** Calls about the program itself: its menus and what it is made of. */
import { z } from 'zod';

const item = z.union([
  z.strictObject({
    /** Of a command of the panel. */
    id: z.string().min(1).max(64),
    label: z.string().min(1).max(80),
    /** As the panel writes it, such as `Ctrl+S`; null: none. */
    shortcut: z.string().max(20).nullable(),
    enabled: z.boolean(),
    /** Of a choice or a switch; absent for what is neither. */
    checked: z.boolean().optional(),
  }),
  z.literal('line'),
]);

export const SHELL_CALLS = {
  /** The menus as they are now, for a shell that has menus of the system; others ignore it. */
  setMenus: z.strictObject({
    menus: z.array(z.strictObject({ title: z.string().min(1).max(40), items: z.array(item).max(60) })).max(12),
  }),
  /** Versions, and the licences of everything that is inside. */
  about: z.strictObject({}),
} as const;

export type Menus = z.infer<typeof SHELL_CALLS.setMenus>['menus'];

export interface ShellResults {
  setMenus: null;
  about: {
    readonly version: string;
    /** Firmware that this app ships, by chip. */
    readonly firmware: readonly { readonly chip: string; readonly version: string }[];
    /** Name and version of what runs it, such as Node and Chromium. */
    readonly runtime: readonly { readonly name: string; readonly version: string }[];
    readonly licences: readonly {
      readonly name: string;
      readonly version: string;
      readonly licence: string;
      readonly text: string;
    }[];
  };
}

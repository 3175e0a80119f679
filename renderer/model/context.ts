/** What every component may reach for. */
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Model } from './model.ts';
import type { Surface } from './surface.ts';

export interface Panel {
  readonly model: Model;
  readonly surface: Surface;
}

export const PanelContext = createContext<Panel | null>(null);

export function usePanel(): Panel {
  const panel = useContext(PanelContext);
  if (!panel) throw new Error('A component stands outside the panel.');
  return panel;
}

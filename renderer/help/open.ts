import { layOver, type Surface } from '../model/surface.ts';

/** Shows a chapter of the help over what is there; closing it brings that back. */
export function openHelp(surface: Surface, chapter: string | null): void {
  surface.chapter.value = chapter;
  layOver(surface, 'help');
}

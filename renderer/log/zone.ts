/** The clock on the wall of this computer. */
import type { Zone } from '../../shared/workbench/story/moment.ts';

export const HERE: Zone = (ms) => -new Date(ms).getTimezoneOffset();

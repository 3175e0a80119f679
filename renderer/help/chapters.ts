/** The help in its order. */
import type { Chapter } from './block.ts';
import { begin } from './chapters/begin.ts';
import { cautions } from './chapters/cautions.ts';
import { check } from './chapters/check.ts';
import { connecting } from './chapters/connecting.ts';
import { files } from './chapters/files.ts';
import { firmware } from './chapters/firmware.ts';
import { keys } from './chapters/keys.ts';
import { log } from './chapters/log.ts';
import { plan } from './chapters/plan.ts';
import { trouble } from './chapters/trouble.ts';
import { tuning } from './chapters/tuning.ts';
import { wiring } from './chapters/wiring.ts';

export const CHAPTERS: readonly Chapter[] = [
  begin,
  cautions,
  connecting,
  firmware,
  plan,
  wiring,
  check,
  tuning,
  log,
  files,
  keys,
  trouble,
];

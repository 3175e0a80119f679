import type { PICTURE_CALLS } from '../../../shared/workbench/calls/pictures.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { Handlers } from '../../../shared/workbench/serve.ts';

type Calls = Pick<Handlers, keyof typeof PICTURE_CALLS>;

export function pictureCalls(): Calls {
  return {
    addPicture: () => problem('badRequest', {}),
    picture: () => problem('badRequest', {}),
  };
}

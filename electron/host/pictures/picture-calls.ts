import type { PICTURE_CALLS } from '../../../shared/workbench/calls/pictures.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import type { Handlers } from '../../../shared/workbench/serve.ts';
import { PictureStore } from './picture-store.ts';

type Calls = Pick<Handlers, keyof typeof PICTURE_CALLS>;

/** `folder`: where pictures are kept, and nothing outside it is read or written; null: nowhere. */
export function pictureCalls(folder: string | null): Calls {
  const store = new PictureStore(folder);
  return {
    addPicture: ({ name, base64 }) => {
      const kept = store.keep(Buffer.from(base64, 'base64'));
      switch (kept.is) {
        case 'kept': {
          const { id, width, height } = kept;
          return { ok: true, value: { id, width, height } };
        }
        case 'notWritten':
          return problem('pictureNotKept', { cause: kept.why, detail: name });
        case 'tooLarge':
          return problem('pictureTooLarge', { detail: name });
        default:
          return problem('badPicture', { detail: name });
      }
    },
    picture: ({ id }) => {
      const found = store.find(id);
      if (!found) return problem('noPicture', { detail: id });
      return { ok: true, value: { type: found.type, base64: found.bytes.toString('base64') } };
    },
  };
}

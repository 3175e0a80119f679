/** Calls about pictures that lie under the plan. */
import { z } from 'zod';

export const PICTURE_CALLS = {
  /** PNG, JPEG or WebP, at most 10 MB; anything else is refused. It is copied into this computer's pictures. */
  addPicture: z.strictObject({ name: z.string().min(1).max(255), base64: z.string().max(14_000_000) }),
  /** `noPicture` when it is not on this computer. */
  picture: z.strictObject({ id: z.string().regex(/^[0-9a-f]{64}$/) }),
} as const;

export interface PictureResults {
  /** `id`: SHA-256 of its bytes, hexadecimal. */
  addPicture: { readonly id: string; readonly width: number; readonly height: number };
  picture: { readonly type: string; readonly base64: string };
}

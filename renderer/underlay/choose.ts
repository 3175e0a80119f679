/** A picture comes under the plan: chosen or dropped, given to the host to keep, laid. */
import { layPicture } from '../../shared/layout/plan-edit/underlay.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import type { Model } from '../model/model.ts';
import { decode } from './pictures.ts';

/** As the host has it, bytes. */
const MOST = 10_000_000;

/** The system's dialog; null when the person thinks better of it. */
export function choosePicture(): Promise<File | null> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = 'image/png,image/jpeg,image/webp';
    input.addEventListener('cancel', () => resolve(null));
    input.addEventListener('change', () => resolve(input.files?.[0] ?? null));
    input.click();
  });
}

/** What is no picture, or is too large, is said and changes nothing. */
export async function layFile(model: Model, file: File): Promise<void> {
  const refuse = (code: 'badPicture' | 'pictureTooLarge'): void => {
    model.trouble.value = { about: {}, problem: describeProblem(code, { detail: file.name }) };
  };
  if (file.size > MOST) {
    refuse('pictureTooLarge');
    return;
  }
  const seen = await decode(file);
  if (!seen) {
    refuse('badPicture');
    return;
  }
  URL.revokeObjectURL(seen.url);
  const name = file.name.trim().slice(0, 255) || 'picture';
  const outcome = await model.ask('addPicture', { name, base64: await base64Of(file) });
  const { layout } = model.open.peek();
  if (!outcome.ok || !layout) return;
  const { id } = outcome.value;
  model.plan.pictures.again(id);
  model.plan.hidePicture(false);
  const isSame = layout.underlay?.picture === id && layout.underlay.name === name;
  if (!isSame) await model.plan.make(layPicture(layout, { id, name, width: seen.width, height: seen.height }));
}

async function base64Of(file: Blob): Promise<string> {
  const reader = new FileReader();
  const url = await new Promise<string>((resolve, reject) => {
    reader.addEventListener('load', () => resolve(String(reader.result)));
    reader.addEventListener('error', () => reject(reader.error));
    reader.readAsDataURL(file);
  });
  return url.slice(url.indexOf(',') + 1);
}

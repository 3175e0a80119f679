import { usePanel } from '../model/context.ts';
import { choosePicture, layFile } from './choose.ts';

/** On the plan, while its picture is not on this computer: which file it was, and how to have it again. */
export function PictureNote() {
  const { model } = usePanel();
  const { plan } = model;
  const underlay = model.open.value.layout?.underlay;
  if (!underlay || plan.isPictureHidden.value || model.preferences.distance.value === 'room') return null;
  const state = plan.pictures.of(underlay.picture).value;
  if (state.is !== 'missing') return null;
  return (
    <aside class="picture-note" aria-label="Picture under the plan">
      <p>
        {state.problem.what} Its file was called <strong>{underlay.name}</strong>.
      </p>
      <div class="row">
        <button
          type="button"
          class="button strong"
          onClick={async () => {
            const file = await choosePicture();
            if (file) await layFile(model, file);
          }}
        >
          Choose it again
        </button>
        <button type="button" class="button" onClick={() => plan.hidePicture(true)}>
          Go on without it
        </button>
      </div>
    </aside>
  );
}

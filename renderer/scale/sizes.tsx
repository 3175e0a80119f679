import { lightsFor, type Nearest } from '../../shared/scale/lights.ts';
import { toModel } from '../../shared/scale/ratios.ts';
import { SIZES, type Size, type SizeGroup } from '../../shared/scale/sizes.ts';
import { modelText, streetText } from './convert.ts';

/** Sizes of the street with their sources, on the model, and the light that comes nearest. */
export function Sizes({ ratio }: { readonly ratio: number }) {
  return (
    <>
      {SIZES.map((group) => (
        <Group key={group.id} group={group} ratio={ratio} />
      ))}
    </>
  );
}

function Group({ group, ratio }: { readonly group: SizeGroup; readonly ratio: number }) {
  return (
    <section aria-label={group.name}>
      <table class="sizes">
        <caption>{group.name}</caption>
        <thead>
          <tr>
            <th scope="col">Part</th>
            <th scope="col">Street</th>
            <th scope="col">Model</th>
          </tr>
        </thead>
        <tbody>
          {group.sizes.map((size) => (
            <tr key={size.id}>
              <th scope="row">
                {size.name}
                <span class="size-source">{size.usual.source}</span>
              </th>
              <td>{streetText(size.usual.value)}</td>
              <td>
                <b>{modelText(toModel(size.usual.value, ratio))}</b>
                {size.isLight && <Lights size={size} ratio={ratio} />}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** What one can buy that shows a disc of about that size. */
function Lights({ size, ratio }: { readonly size: Size; readonly ratio: number }) {
  const { led, fibre } = lightsFor(toModel(size.usual.value, ratio));
  return (
    <span class="size-lights">
      {led && nearWords(led)}
      {led && fibre && '; '}
      {fibre && nearWords(fibre)}
    </span>
  );
}

function nearWords({ light, difference }: Nearest): string {
  if (Math.abs(difference) < 0.05) return light.name;
  return `${light.name}, ${Math.abs(difference).toFixed(1)} mm ${difference > 0 ? 'too large' : 'too small'}`;
}

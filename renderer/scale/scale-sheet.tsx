import { useSignal } from '@preact/signals';
import type { Layout, Scale } from '../../shared/layout/schema.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { ratioIn, SCALES, scaleText } from '../../shared/scale/ratios.ts';
import { usePanel } from '../model/context.ts';
import { Choice } from '../wiring/choice.tsx';
import { type Converted, onModel, onStreet, speedOnModel, withScale } from './convert.ts';
import { Sizes } from './sizes.tsx';

/** How large things of the street are on the layout, and the other way round. */
export function ScaleSheet() {
  const { model } = usePanel();
  const { layout } = model.open.value;
  if (!layout) return <p>Open a layout first: its scale is what is reckoned with.</p>;
  const ratio = ratioIn(layout);
  return (
    <div class="scale">
      <ScaleChoice layout={layout} />
      <Convert label="On the street" hint="7 ft 6 in, 2.1 m" words={(text) => onModel(text, ratio)} />
      <Convert label="On the layout" hint="28 mm" words={(text) => onStreet(text, ratio)} />
      <Convert label="Speed" hint="30 mph, 50 km/h" words={(text) => speedOnModel(text, ratio)} />
      <Sizes ratio={ratio} />
    </div>
  );
}

/** 1:1 is no model, and nothing is built smaller than 1:1000. */
const RATIO = { least: 1, most: 1000 };

function ScaleChoice({ layout }: { readonly layout: Layout }) {
  const { model } = usePanel();
  const typed = useSignal<string | null>(null);
  const choose = (scale: Scale, ratio = ratioIn(layout)): void => {
    const next = withScale(layout, scale, ratio);
    void model.change(writeLayout(next.layout), next.said);
  };
  const take = (): void => {
    const ratio = Number(typed.value?.replace(',', '.'));
    if (typed.value === null || !(ratio > RATIO.least && ratio <= RATIO.most)) return;
    typed.value = null;
    if (ratio !== layout.ratio) choose('custom', ratio);
  };
  return (
    <div class="row">
      <Choice
        label="Scale"
        value={layout.scale}
        choices={[...SCALES.map(({ id }) => [id, scaleText(id)] as const), ['custom', 'a ratio of its own'] as const]}
        onChoose={(scale) => choose(scale)}
      />
      {layout.scale === 'custom' && (
        <label class="field">
          1 to
          <input
            class="remark ratio"
            inputMode="decimal"
            autoComplete="off"
            value={typed.value ?? Number(ratioIn(layout).toFixed(2))}
            onInput={(event) => {
              typed.value = event.currentTarget.value;
            }}
            onBlur={take}
            onKeyDown={(event) => {
              if (event.key === 'Enter') take();
            }}
          />
        </label>
      )}
    </div>
  );
}

interface ConvertProps {
  readonly label: string;
  readonly hint: string;
  /** Null: it cannot be read. */
  words(text: string): Converted | null;
}

function Convert({ label, hint, words }: ConvertProps) {
  const typed = useSignal('');
  const text = typed.value.trim();
  const found = text === '' ? null : words(text);
  return (
    <div class="convert">
      <label class="field">
        <span>{label}</span>
        <input
          class="remark"
          autoComplete="off"
          placeholder={hint}
          value={typed.value}
          onInput={(event) => {
            typed.value = event.currentTarget.value;
          }}
        />
      </label>
      <output class="converted" aria-live="polite">
        {found !== null && (
          <>
            <b>{found.shown}</b> {found.more}
          </>
        )}
        {text !== '' && found === null && `Write it with its unit, such as ${hint}.`}
      </output>
    </div>
  );
}

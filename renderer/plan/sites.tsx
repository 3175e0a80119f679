import { useComputed } from '@preact/signals';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import type { Drawing } from './drawing.ts';
import { Head } from './head.tsx';
import { dialOfHead } from './head-dial.ts';
import type { HeadMark, SiteMarks } from './marks.ts';
import type { Moving } from './moving.ts';
import { SiteMark } from './site-mark.tsx';

interface Props {
  readonly drawing: Drawing;
  readonly moving: Moving;
}

/** Names and places to press first, so that no head is covered by the site beside it. */
export function Sites({ drawing, moving }: Props) {
  const { model } = usePanel();
  const { sites } = model.open.value;
  const known = drawing.marks.flatMap((mark, at) => {
    const site = sites.find(({ id }) => id === mark.id);
    const label = drawing.labels[at];
    return site && label ? [{ mark, site, label }] : [];
  });
  return (
    <>
      {known.map((it) => (
        <OneMark key={it.mark.id} {...it} drawing={drawing} moving={moving} />
      ))}
      {known.map(({ mark, site }) => (
        <Heads key={mark.id} mark={mark} site={site} r={drawing.r} moving={moving} />
      ))}
    </>
  );
}

interface OneProps extends Props {
  readonly site: OpenSite;
  readonly mark: SiteMarks;
  readonly label: Drawing['labels'][number];
}

function OneMark({ drawing, ...parts }: OneProps) {
  const { model } = usePanel();
  const { id } = parts.site;
  const isAtHand = useComputed(() => model.siteAtHand.value?.id === id);
  const { sizes, mm } = drawing;
  return (
    <SiteMark
      {...parts}
      size={sizes.name * mm}
      hasFigures={sizes.figures}
      hasName={sizes.name > 0}
      isAtHand={isAtHand}
    />
  );
}

interface HeadsProps {
  readonly mark: SiteMarks;
  readonly site: OpenSite;
  readonly r: number;
  readonly moving: Moving;
}

function Heads({ mark, site, r, moving }: HeadsProps) {
  const { model, surface } = usePanel();
  const way = useComputed(() => moving.transform(site.id));
  const choose = (head: HeadMark): void => {
    model.choose(site.id);
    const { layout } = model.open.peek();
    const dial = layout && dialOfHead(layout, site, head);
    if (dial === null) return;
    const { distance } = model.preferences;
    model.roomDials.show(site, dial);
    // At the desk there are no dials: they are one step nearer to the layout.
    if (distance.value === 'desk') distance.value = 'layout';
    surface.focus(`dial-${site.names.dials[dial]?.id}`);
  };
  return (
    <g class="heads" transform={way}>
      {mark.heads.map((head, at) => (
        <Head
          key={`${at} ${head.name}`}
          mark={head}
          board={model.board(site.board)}
          r={r}
          pick={{ site: site.id, at, of: mark.heads.length, onChoose: () => choose(head) }}
        />
      ))}
    </g>
  );
}

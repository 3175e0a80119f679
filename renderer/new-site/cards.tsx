import type { Offer } from '../../shared/layout/new-site/offers.ts';
import { Picture } from './picture.tsx';

interface Props {
  readonly offers: readonly Offer[];
  readonly chosen: Offer;
  /** The country and era had no such thing. */
  mark(offer: Offer): boolean;
  onChoose(offer: Offer): void;
  onEnter(): void;
}

/** One of many: arrow keys go from card to card, a letter to the next name that begins with it. */
export function Cards({ offers, chosen, mark, onChoose, onEnter }: Props) {
  const move = (group: HTMLElement, to: number): void => {
    const offer = offers[Math.max(0, Math.min(offers.length - 1, to))];
    if (!offer) return;
    onChoose(offer);
    group.querySelector<HTMLElement>(`[data-offer="${offer.id}"]`)?.focus();
  };
  return (
    <div
      class="offers"
      role="radiogroup"
      aria-label="Kind of site"
      onKeyDown={(event) => {
        const group = event.currentTarget;
        const now = offers.indexOf(chosen);
        const columns = getComputedStyle(group).gridTemplateColumns.split(' ').length;
        const steps: Readonly<Record<string, number>> = {
          ArrowRight: 1,
          ArrowLeft: -1,
          ArrowDown: columns,
          ArrowUp: -columns,
          Home: -offers.length,
          End: offers.length,
        };
        const by = steps[event.key];
        const plain = !event.ctrlKey && !event.metaKey && !event.altKey && !event.shiftKey;
        if (by !== undefined) {
          event.preventDefault();
          move(group, now + by);
        } else if (event.key === 'Enter') {
          event.preventDefault();
          onEnter();
        } else if (plain && /^[a-z]$/i.test(event.key)) {
          // Letters are names here, not commands.
          event.preventDefault();
          const begins = (offer: Offer): boolean => offer.name.toLowerCase().startsWith(event.key.toLowerCase());
          const after = [...offers.slice(now + 1), ...offers.slice(0, now + 1)];
          const found = after.find(begins);
          if (found) move(group, offers.indexOf(found));
        }
      }}
    >
      {offers.map((offer) => (
        // biome-ignore lint/a11y/useSemanticElements: a card with a picture and two lines of text
        <button
          key={offer.id}
          type="button"
          class={mark(offer) ? 'offer anachronism' : 'offer'}
          role="radio"
          data-offer={offer.id}
          aria-checked={offer === chosen}
          aria-label={offer.name}
          aria-describedby={`hint-${offer.id}`}
          tabIndex={offer === chosen ? 0 : -1}
          onClick={() => onChoose(offer)}
          onDblClick={onEnter}
        >
          <Picture offer={offer} />
          <span class="offer-name">{offer.name}</span>
          <span class="offer-hint" id={`hint-${offer.id}`}>
            {offer.hint}
            {mark(offer) && <b> Not in this country and era.</b>}
          </span>
        </button>
      ))}
    </div>
  );
}

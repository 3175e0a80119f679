import { useEffect, useRef } from 'preact/hooks';

/** A key that stays down repeats after this long, and then so often, ms. */
const FIRST = 450;
const NEXT = 140;

interface Props {
  readonly sign: string;
  readonly label: string;
  readonly isOff: boolean;
  onTurn(): void;
}

/** − or +, as large as a thumb; it repeats while it is held. Arrow keys do the same, so the keyboard passes it by. */
export function Turn({ sign, label, isOff, onTurn }: Props) {
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const repeated = useRef(false);
  const latest = useRef(onTurn);
  latest.current = onTurn;

  const release = (): void => clearTimeout(timer.current);
  const repeat = (): void => {
    repeated.current = true;
    latest.current();
    timer.current = setTimeout(repeat, NEXT);
  };
  useEffect(() => () => clearTimeout(timer.current), []);
  useEffect(() => {
    if (isOff) clearTimeout(timer.current);
  }, [isOff]);

  return (
    <button
      type="button"
      class="turn"
      tabIndex={-1}
      aria-label={label}
      disabled={isOff}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        repeated.current = false;
        release();
        timer.current = setTimeout(repeat, FIRST);
      }}
      onPointerUp={release}
      onPointerLeave={release}
      onPointerCancel={release}
      onClick={() => {
        // The click at the end of a long press has had its turns.
        if (!repeated.current) onTurn();
        repeated.current = false;
      }}
    >
      {sign}
    </button>
  );
}

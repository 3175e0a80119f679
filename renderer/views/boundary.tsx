/** Where a part of the screen cannot be drawn, it says so and offers a way on; the rest of the screen stays. */
import { Component, type ComponentChildren, type ErrorInfo } from 'preact';
import { usePanel } from '../model/context.ts';

interface Props {
  /** What cannot be drawn, for the heading: `This view`. */
  readonly part: string;
  /** It is the main part of the page. */
  readonly main?: true;
  readonly children: ComponentChildren;
}

/** It is drawn anew as soon as something else is open, looked at, or laid over. */
export function Boundary({ children, ...words }: Props) {
  const { model, surface } = usePanel();
  // Only what is known without reading the layout: that may be what failed.
  const shown = [model.text.value, model.preferences.distance.value, surface.sheet.value];
  return (
    <Catcher {...words} shown={shown}>
      {children}
    </Catcher>
  );
}

interface CatcherProps extends Props {
  readonly shown: readonly unknown[];
}

interface State {
  readonly error: unknown;
  readonly hasFailed: boolean;
}

const WELL: State = { error: null, hasFailed: false };

class Catcher extends Component<CatcherProps, State> {
  override state = WELL;

  static override getDerivedStateFromError(error: unknown): State {
    return { error, hasFailed: true };
  }

  override componentDidCatch(error: unknown, _info: ErrorInfo): void {
    console.error(error);
  }

  override componentDidUpdate(before: CatcherProps): void {
    const isSame = before.shown.every((it, at) => it === this.props.shown[at]);
    if (!isSame && this.state.hasFailed) this.setState(WELL);
  }

  override render({ part, main, children }: CatcherProps, { error, hasFailed }: State) {
    if (!hasFailed) return children;
    const broken = <Broken part={part} error={error} again={() => this.setState(WELL)} />;
    return main ? <main class="view">{broken}</main> : broken;
  }
}

interface BrokenProps {
  readonly part: string;
  readonly error: unknown;
  readonly again: () => void;
}

function Broken({ part, error, again }: BrokenProps) {
  const { model } = usePanel();
  const canUndo = model.history.canUndo.value;
  return (
    <section class="broken" role="alert">
      <h2>{part} could not be drawn</h2>
      <p>
        This is a mistake in Amberwick, not in your layout. Nothing is lost: the lamps go on, and the layout is as it
        was.
      </p>
      <p>{canUndo ? 'Undo the last change, look' : 'Look'} at something else, or begin again with the example.</p>
      <p class="broken-words">{error instanceof Error ? error.message : String(error)}</p>
      <p class="row">
        <button type="button" class="button strong" onClick={again}>
          Draw it again
        </button>
        {canUndo && (
          <button type="button" class="button" onClick={() => void model.history.undo().then(again)}>
            Undo the last change
          </button>
        )}
        <button type="button" class="button" onClick={() => void model.ask('openExample', {}).then(again)}>
          Begin again with Penmarrow
        </button>
      </p>
    </section>
  );
}

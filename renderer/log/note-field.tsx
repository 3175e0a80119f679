import { useSignal } from '@preact/signals';

interface Props {
  readonly id: string;
  readonly label: string;
  readonly placeholder?: string;
  /** On the button. */
  readonly done: string;
  /** What stands in it at first. */
  readonly text?: string;
  readonly rows?: number;
  /** True: it was taken, and the field may be emptied. */
  take(text: string): Promise<boolean>;
  readonly children?: preact.ComponentChildren;
}

/** Words of one's own: Enter adds them, Shift with Enter begins a new line. */
export function NoteField({ id, label, placeholder, done, text: first = '', rows = 1, take, children }: Props) {
  const text = useSignal(first);
  const submit = async (): Promise<void> => {
    const words = text.value.trim();
    if (words !== '' && (await take(words))) text.value = '';
  };
  return (
    <form
      class="row note-field"
      onSubmit={(event) => {
        event.preventDefault();
        void submit();
      }}
    >
      <textarea
        id={id}
        class="remark"
        aria-label={label}
        aria-description="Enter adds it. Shift and Enter begin a new line."
        title="Enter adds it. Shift and Enter begin a new line."
        {...(placeholder === undefined ? {} : { placeholder })}
        rows={Math.max(rows, text.value.split('\n').length)}
        maxLength={2000}
        value={text}
        onInput={(event) => {
          text.value = event.currentTarget.value;
        }}
        onKeyDown={(event) => {
          // Enter that ends the writing of a composed letter is no end of the note.
          if (event.key !== 'Enter' || event.shiftKey || event.isComposing) return;
          event.preventDefault();
          void submit();
        }}
      />
      <button type="submit" class="button">
        {done}
      </button>
      {children}
    </form>
  );
}

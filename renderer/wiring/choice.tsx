interface Props<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly choices: readonly (readonly [T, string])[];
  onChoose(value: T): void;
}

/** One of a few, with its words in front. */
export function Choice<T extends string>({ label, value, choices, onChoose }: Props<T>) {
  return (
    <label class="choice">
      <span>{label}</span>
      <select
        value={value}
        onChange={(event) => {
          const chosen = choices.find(([it]) => it === event.currentTarget.value);
          if (chosen) onChoose(chosen[0]);
        }}
      >
        {choices.map(([it, words]) => (
          <option key={it} value={it}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

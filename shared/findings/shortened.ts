/** Words of a file as a finding quotes them: no more than `most` letters, then an ellipsis. */
export function shortened(text: string, most: number): string {
  return text.length > most ? `${text.slice(0, most)}…` : text;
}

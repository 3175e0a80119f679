export function FindSheet() {
  return null;
}

export function PractiseSheet() {
  return null;
}

/** `19:04:12` of an ISO 8601 time, in the zone in which it was written. */
export function clockTime(iso: string): string {
  return /T(\d\d:\d\d:\d\d)/.exec(iso)?.[1] ?? iso;
}

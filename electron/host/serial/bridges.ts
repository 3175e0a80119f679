/**
 * USB chips that boards are reached through, by vendor and product id, as the makers of the chips assigned them. Which
 * chip each id of 0403 stands for: from memory.
 */
const BRIDGES: Readonly<Record<string, string>> = {
  '1a86:7523': 'CH340',
  '1a86:55d4': 'CH9102',
  '10c4:ea60': 'CP210x',
  '0403:6001': 'FT232R',
  '0403:6010': 'FT2232',
  '0403:6014': 'FT232H',
  '0403:6015': 'FT-X',
  '067b:2303': 'PL2303',
};
/** Vendors whose boards have a USB chip of their own; the name that the system tells for them is a brand. */
const OWN_USB: readonly string[] = ['2341', '2a03'];

/** What the serial library knows of a port. */
export interface ListedPort {
  readonly path: string;
  readonly manufacturer?: string | undefined;
  readonly vendorId?: string | undefined;
  readonly productId?: string | undefined;
}

export interface PortLook {
  /** What a person reads. */
  readonly label: string;
  /** A USB chip of the kinds that boards carry. */
  readonly likely: boolean;
}

export function lookOf({ vendorId, productId, manufacturer }: ListedPort): PortLook {
  const vendor = vendorId?.toLowerCase();
  const id = vendor && productId ? `${vendor}:${productId.toLowerCase()}` : null;
  const bridge = id === null ? undefined : BRIDGES[id];
  if (bridge) return { label: `USB serial (${bridge})`, likely: true };
  if (vendor && OWN_USB.includes(vendor)) return { label: 'board with its own USB', likely: true };
  const known = [manufacturer, id].filter(Boolean).join(', ');
  return { label: known ? `other device (${known})` : 'serial port', likely: false };
}

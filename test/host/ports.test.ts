import { expect, test } from 'vitest';
import { openErrorKind, openPort, orderPorts } from '../../electron/host/ports.ts';

test('boards stand before other ports, by name, and the virtual board is always there', () => {
  const ports = orderPorts([
    { path: '/dev/ttyS0' },
    { path: '/dev/ttyUSB10', vendorId: '1A86', productId: '7523', manufacturer: 'QinHeng' },
    { path: '/dev/ttyUSB2', vendorId: '0403', productId: '6001' },
    { path: '/dev/ttyACM0', vendorId: '2341', productId: '0043' },
    { path: '/dev/ttyACM1', vendorId: '1d6b', productId: '0002' },
  ]);
  expect(ports.map(({ path, likely }) => [path, likely])).toEqual([
    ['/dev/ttyACM0', true],
    ['/dev/ttyUSB2', true],
    ['/dev/ttyUSB10', true],
    ['/dev/ttyACM1', false],
    ['/dev/ttyS0', false],
    ['virtual', false],
  ]);
  expect(ports[2]?.label).toBe('QinHeng, 1a86:7523');
  expect(ports.at(-1)?.virtual).toBe(true);
});

test.each([
  ['Error: Error Resource temporarily unavailable Cannot lock port', 'busy'],
  ['Opening COM3: Access denied', 'busy'],
  ['Error: Permission denied, cannot open /dev/ttyUSB0', 'denied'],
  ['Error: No such file or directory, cannot open /dev/ttyUSB0', 'missing'],
  ['Opening COM9: File not found', 'missing'],
  ['Error: Inappropriate ioctl for device', 'failed'],
] as const)('%s means %s', (message, kind) => {
  expect(openErrorKind(message)).toBe(kind);
});

test('a port that is not there is told, not thrown', async () => {
  const result = await openPort('/dev/amberwick-no-such-port');
  expect(!result.ok && result.error.kind).toBe('missing');
});

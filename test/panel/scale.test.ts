/** Street and model, as they are typed in the panel. */
import { expect, it } from 'vitest';
import { modelText, onModel, onStreet, speedOnModel, withScale } from '../../renderer/scale/convert.ts';
import { readLayout } from '../../shared/layout/parse.ts';
import { ratioIn } from '../../shared/scale/ratios.ts';
import { PENMARROW } from './example.ts';

const layout = readLayout(JSON.parse(PENMARROW)).layout;
if (layout === null) throw new Error('no layout');
const OO = ratioIn(layout);

it('a post of 7 ft at 4 mm to the foot is 28 mm (common practice, no source), and back', () => {
  expect(onModel('7 ft', OO)).toEqual({ shown: '28 mm', more: 'on the layout' });
  expect(onStreet('28', OO)).toEqual({ shown: '2.13 m, 7 ft', more: 'on the street' });
  expect(onStreet('28 mm', OO)?.shown).toBe('2.13 m, 7 ft');
  expect(onStreet('1 in', OO)?.shown).toBe('1.94 m, 6 ft 4 ¼ in');
});

it('what is no length, or has no unit on the street, is not guessed at', () => {
  expect(['7', 'seven ft', '', '-3 ft'].map((text) => onModel(text, OO))).toEqual([null, null, null, null]);
  expect(['post', '0', '0 mm'].map((text) => onStreet(text, OO))).toEqual([null, null, null]);
});

it('a speed is told as it is seen: 30 mph is 13.4112 m/s, which is 176 mm/s at 1:76.2', () => {
  expect(speedOnModel('30 mph', OO)).toEqual({
    shown: '176 mm a second',
    more: 'a metre takes 5.7 s; 30 mph, 48.3 km/h',
  });
  expect(speedOnModel('30', OO)).toBeNull();
});

it('lengths of the model are told as a ruler shows them', () => {
  expect([2.6667, 12.34, 123.4, 1234].map(modelText)).toEqual(['2.67 mm', '12.3 mm', '123 mm', '1.23 m']);
});

it('another scale is one edit that the file keeps, with a ratio where it is the own one', () => {
  const own = withScale(layout, 'custom', 50);
  expect(own.said).toBe('Chose the scale 1:50.');
  expect(readLayout(own.layout).layout).toMatchObject({ scale: 'custom', ratio: 50 });
  const back = withScale(own.layout, 'N', 50);
  expect(back.said).toBe('Chose the scale N, 1:160.');
  expect(readLayout(back.layout).layout).toEqual({ ...layout, scale: 'N' });
});

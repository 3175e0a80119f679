/** The pins measured from the panel before anything is lit. */
import { expect, test } from 'vitest';
import { openBench } from './example.ts';

test('each pin that can tell is measured once, in the dark; what cannot says why', async () => {
  const { model, host } = await openBench();
  const { check } = model;
  expect(await check.selfCheck.run('town')).toBe(true);
  const asked = host.calls.filter(({ name }) => ['beginCheck', 'probe', 'endCheck'].includes(name));
  expect(asked[0]?.name).toBe('beginCheck');
  expect(asked.at(-1)?.name).toBe('endCheck');
  const pins = asked.flatMap(({ name, args }) => (name === 'probe' ? [(args as { pin: number }).pin] : []));
  expect(pins).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 14, 15, 16]);
  const loads = check.loads('town');
  const kinds = loads.map((load) => check.selfCheck.verdict('town', load)?.kind);
  // The host of this test reads high on every pin, and gives no analogue reading.
  expect(kinds).toEqual([...Array.from({ length: 11 }, () => 'notShorted'), 'cantTell', 'cantTell', 'cantTell']);
  expect([...check.selfCheck.safe('town')]).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
});

test('what was measured holds for the lamp at its output only', async () => {
  const { model } = await openBench();
  const { check } = model;
  await check.selfCheck.run('town');
  const text = model.text.value ?? '';
  await model.change(text.replace('"D2"', '"A4"').replace('"D3"', '"D2"').replace('"A4"', '"D3"'), 'Exchanged two.');
  const [first] = check.loads('town');
  expect(first && check.selfCheck.verdict('town', first)).toBe(null);
});

test('a board that does not answer leaves nothing half measured', async () => {
  const { model, host } = await openBench();
  host.refuseNext = { name: 'probe', code: 'lampsLit', what: 'Lamps are lit.' };
  expect(await model.check.selfCheck.run('town')).toBe(false);
  expect(model.check.selfCheck.safe('town').size).toBe(0);
  expect(model.check.selfCheck.problem.value?.code).toBe('lampsLit');
  expect(model.board('town').state.value.checking).toBe(false);
});

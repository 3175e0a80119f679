import { expect, test } from 'vitest';
import { countTests } from '../../scripts/setup/test-report.mjs';

const report = (...files: { status: string; tests: string[] }[]): string =>
  JSON.stringify({
    testResults: files.map(({ status, tests }) => ({
      status,
      assertionResults: tests.map((each) => ({ status: each })),
    })),
  });

test('passed and failed tests of all files are counted; skipped ones are neither', () => {
  const text = report(
    { status: 'passed', tests: ['passed', 'passed', 'skipped'] },
    { status: 'failed', tests: ['passed', 'failed'] },
  );
  expect(countTests(text, 1)).toEqual({ passed: 3, failed: 1 });
});

test('a file that could not be loaded is a failure', () => {
  expect(countTests(report({ status: 'failed', tests: [] }, { status: 'passed', tests: ['passed'] }), 1)).toEqual({
    passed: 1,
    failed: 1,
  });
});

test.each([
  ['no report', null, 1],
  ['half a report', '{"testResults": [', 0],
  ['no test at all', report(), 0],
])('%s is never nothing failed', (_, text, status) => {
  expect(countTests(text, status).failed).toBe(1);
});

test('an error beside passed tests is a failure', () => {
  expect(countTests(report({ status: 'passed', tests: ['passed'] }), 1)).toEqual({ passed: 1, failed: 1 });
  expect(countTests(report({ status: 'passed', tests: ['passed'] }), null)).toEqual({ passed: 1, failed: 1 });
});

// Reads what vitest reported, so that `npm test` can end with one honest line.

/**
 * Passed and failed tests of one run. `report` is the JSON text or null when
 * there is none; `status` is the exit code of the run. A file that could not
 * be loaded counts as one failure, and so does a run that broke off or ended
 * with an error although every test passed.
 */
export function countTests(report, status) {
  const parsed = parse(report);
  if (!parsed) return { passed: 0, failed: 1 };
  let passed = 0;
  let failed = 0;
  for (const file of parsed.testResults) {
    const results = file.assertionResults;
    passed += results.filter((test) => test.status === 'passed').length;
    const wrong = results.filter((test) => test.status === 'failed').length;
    failed += wrong;
    if (wrong === 0 && file.status === 'failed') failed += 1;
  }
  if (failed === 0 && (status !== 0 || passed === 0)) failed = 1;
  return { passed, failed };
}

function parse(report) {
  if (report === null) return null;
  try {
    const parsed = JSON.parse(report);
    return Array.isArray(parsed.testResults) ? parsed : null;
  } catch {
    return null;
  }
}

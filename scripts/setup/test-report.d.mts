export function countTests(report: string | null, status: number | null): { passed: number; failed: number };

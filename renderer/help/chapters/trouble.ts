import { describeProblem, PROBLEM_CODES } from '../../../shared/workbench/problems.ts';
import { type Chapter, words } from '../block.ts';

/** Every problem that can be shown, in its own words. */
export const trouble: Chapter = {
  id: 'trouble',
  title: 'When something does not work',
  words: ['problem', 'error', 'broken', 'message', 'fault', 'why', 'does not'],
  blocks: [
    words(
      'Look for the words of the message, or for what you see. Each row says what happened, the likely cause and what to do.',
    ),
    {
      is: 'troubles',
      rows: PROBLEM_CODES.map((code) => {
        const { what, why, next } = describeProblem(code, {});
        return [what, why, next];
      }),
    },
  ],
};

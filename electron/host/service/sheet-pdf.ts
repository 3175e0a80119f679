/** A wiring sheet as a PDF file, where the shell can make one. */
import type { CallArgs, CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import { fine } from '../result.ts';

/** A whole page of HTML to the bytes of a PDF file; rejects when it cannot. */
export type PdfPrinter = (html: string) => Promise<Uint8Array>;

export async function makePdf(
  { name, html }: CallArgs<'makePdf'>,
  printer: PdfPrinter | undefined,
): Promise<Outcome<CallResults['makePdf']>> {
  if (printer === undefined) return problem('noPdf', {});
  try {
    return fine({ name, base64: Buffer.from(await printer(html)).toString('base64') });
  } catch (error) {
    return problem('noPdf', { detail: error instanceof Error ? error.message : String(error) });
  }
}

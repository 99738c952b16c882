import { basename, dirname } from 'node:path';
import { shoppingList } from '../../rendering/shopping.ts';
import { shoppingCsv, shoppingJson } from '../../rendering/shopping-data.ts';
import { shoppingText } from '../../rendering/shopping-text.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import { exitCodeOf } from '../exit-of-issues.ts';
import type { OptionValues } from '../option-records.ts';
import { isOurs, readFonts } from '../outputs.ts';
import { placeIssues } from '../place-issues.ts';
import { readPlanFile } from '../read-plan-file.ts';
import { refusalOf } from '../read-plan-text.ts';
import { search } from '../search.ts';
import { columnsOf, say, show, type Terminal } from '../terminal.ts';
import { checkTargets, writeSet } from '../write-set.ts';

/** Plans, and tells only what to bring home; nothing is written unless a page is asked for. */
export async function runShopping(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  // What the leftovers could become has no part in the list.
  const { plan: asWritten, read } = await readPlanFile(operands[0]!, options, terminal);
  const { wishes: _, ...plan } = asWritten;
  const by = options.by === 'cloth' ? 'cloth' : 'shop';
  const page = typeof options.page === 'string' ? options.page : undefined;
  if (page !== undefined) checkPage(page);
  const effort = { effort: Number(options.effort), seed: Number(options.seed), seconds: undefined };
  const { outcome } = await search(plan, effort, terminal);
  if (!outcome.ok) throw refusalOf(placeIssues(outcome.issues, read), exitCodeOf(outcome.issues), plan.unit);
  const list = shoppingList(outcome.value);
  if (options.as === 'csv') show(terminal, shoppingCsv(list));
  else if (options.as === 'json') show(terminal, shoppingJson(list));
  else show(terminal, shoppingText(list, columnsOf(terminal), by));
  if (page === undefined) return EXIT.done;
  const { shoppingPages } = await import('../../rendering/pdf/shopping-page.ts');
  const { writePages } = await import('../../rendering/pdf.ts');
  const content = await writePages(shoppingPages(list, by), `${plan.name}: to buy`, { fonts: readFonts() });
  writeSet(dirname(page), [{ name: basename(page), content }], isOurs);
  say(terminal, `Written: ${page}`);
  return EXIT.done;
}

function checkPage(page: string): void {
  if (!page.endsWith('.pdf')) {
    const message = `--page: found "${page}"; the page is a PDF, so a name that ends in .pdf would work`;
    throw new CommandProblem(EXIT.badInput, message);
  }
  checkTargets(dirname(page), [basename(page)], isOurs, 'give another name with --page');
}

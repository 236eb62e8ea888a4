import { allChecks } from '@setwright/checks';
import { formatText } from '@setwright/language';

/** The faulty example of every check, as the file `examples/faulty/<id>.receiver` holds it. */
export const faultySets: readonly { readonly id: string; readonly text: string }[] = allChecks.map(
  ({ id, summary, fails }) => ({
    id,
    text: formatText(`// Has the fault that ${id} finds: ${summary}\n\n${fails.trim()}\n`).text,
  }),
);

import type { Check } from './check.ts';

/** A check's page: what `setwright explain ID` prints, as Markdown. */
export function pageOf(check: Check): string {
  return [
    `# ${check.id}`,
    '',
    check.summary,
    '',
    `Severity: ${check.severity}. Group: ${check.group}.`,
    '',
    ...(check.thorough
      ? ['It takes long, and is only run when asked for: `setwright check --thorough`.', '']
      : []),
    '## Why it matters',
    '',
    check.why,
    '',
    ...(check.silent.length > 0
      ? ['## When it keeps silent', '', ...check.silent.map((reason) => `- ${reason}`), '']
      : []),
    '## A set that it finds fault with',
    '',
    '```',
    check.fails.trim(),
    '```',
    '',
    '## The same set put right',
    '',
    '```',
    check.passes.trim(),
    '```',
    '',
    `Source: ${check.source}.`,
    '',
    `If the departure is meant, say so where it stands: \`meant ${check.id} "why"\`.`,
    '',
  ].join('\n');
}

// Puts a text in Markdown on a pull request as a comment, in place of the one that an earlier run
// left. A request from elsewhere gives no leave to write: then it goes to the summary of the run
// alone, where it always goes too.
// Usage: node post-comparison.mjs FILE
//   TOKEN, REQUEST, GITHUB_API_URL, GITHUB_REPOSITORY, GITHUB_STEP_SUMMARY in the environment
import { appendFileSync, readFileSync } from 'node:fs';

const { TOKEN, REQUEST, GITHUB_API_URL, GITHUB_REPOSITORY, GITHUB_STEP_SUMMARY } = process.env;
/** By this an earlier comment is known. */
const mark = '<!-- comparison of sets -->';
/** No comment may be longer than 65,536 characters. */
const LONGEST = 60_000;

const told = readFileSync(process.argv[2], 'utf8').trim();
const whole = told === '' ? 'No set is changed by this request.' : told;
const cut = whole.lastIndexOf('\n', LONGEST);
const text =
  whole.length <= LONGEST
    ? whole
    : `${whole.slice(0, Math.max(cut, 1))}\n\nThere is more in the summary of the run.`;

if (GITHUB_STEP_SUMMARY) appendFileSync(GITHUB_STEP_SUMMARY, `${whole}\n`);

async function call(path, method = 'GET', body = undefined) {
  const answer = await fetch(`${GITHUB_API_URL}/repos/${GITHUB_REPOSITORY}/${path}`, {
    method,
    headers: { authorization: `Bearer ${TOKEN}`, accept: 'application/vnd.github+json' },
    body: body === undefined ? undefined : JSON.stringify(body),
  });
  if (answer.ok) return answer.json();
  if (answer.status === 403) return undefined;
  throw new Error(`${method} ${path}: ${answer.status}`);
}

/** The comment that an earlier run left on this request. */
async function earlier() {
  for (let page = 1; ; page += 1) {
    const comments = await call(`issues/${REQUEST}/comments?per_page=100&page=${page}`);
    const found = comments?.find(({ body, user }) => body.startsWith(mark) && user?.type === 'Bot');
    if (found || !comments || comments.length < 100) return found;
  }
}

const body = `${mark}\n${text}`;
const found = await earlier();
const posted = found
  ? await call(`issues/comments/${found.id}`, 'PATCH', { body })
  : await call(`issues/${REQUEST}/comments`, 'POST', { body });
if (!posted) console.log('There is no leave to write on this request; see the summary of the run.');

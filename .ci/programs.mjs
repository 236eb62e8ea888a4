// The programs that tests run besides Node: a browser for the preview, an editor that is not ours
// to try the language server with. Tells which are missing, and with --install gets those by apt.
// A missing one is a failure: what cannot be tried is not known to work.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const programs = [
  {
    name: 'Chromium',
    packages: ['chromium', 'fonts-dejavu-core', 'fonts-liberation'],
    isThere: () =>
      [
        process.env.SETWRIGHT_CHROMIUM,
        '/usr/bin/chromium',
        '/usr/bin/chromium-browser',
        '/usr/bin/google-chrome',
      ].some((path) => path !== undefined && existsSync(path)),
  },
  {
    name: 'Neovim',
    packages: ['neovim'],
    isThere: () => spawnSync('nvim', ['--version']).status === 0,
  },
];

const missing = () => programs.filter(({ isThere }) => !isThere());

function apt(...words) {
  const command = ['apt-get', ...words];
  if (process.getuid?.() !== 0) command.unshift('sudo', '-n');
  const [program, ...rest] = command;
  const done = spawnSync(program, rest, {
    encoding: 'utf8',
    maxBuffer: 1 << 26,
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
  if (done.status !== 0) {
    console.error(`${command.join(' ')} failed\n${done.stdout ?? ''}${done.stderr ?? done.error}`);
  }
  return done.status === 0;
}

if (process.argv.includes('--install') && missing().length > 0) {
  const packages = missing().flatMap((each) => each.packages);
  console.log(`installing ${packages.join(', ')}`);
  apt('update', '-q');
  apt('install', '-q', '-y', '--no-install-recommends', ...packages);
}

const names = missing().map(({ name }) => name);
if (names.length > 0) {
  console.error(
    `missing: ${names.join(', ')}. Install them, or run: node .ci/programs.mjs --install`,
  );
  process.exitCode = 1;
} else {
  console.log('a browser and another editor are there');
}

// The walls between the packages. A package missing from this table may use nothing at all.
//
// uses:     packages it may import
// inTests:  packages its tests may import besides
// outside:  what it may import from outside the project ('vscode' is the editor's own module)
// platform: true where it may use Node's modules; the core does no input or output
const packages = {
  units: { uses: [] },
  circuit: { uses: ['units'] },
  language: { uses: ['circuit', 'units'], outside: ['langium', 'chevrotain'] },
  physics: { uses: ['units'] },
  analysis: { uses: ['physics', 'circuit', 'units'], inTests: ['language'] },
  bench: { uses: ['analysis', 'physics', 'circuit', 'units'], inTests: ['language'] },
  checks: { uses: ['bench', 'analysis', 'physics', 'circuit', 'units'], inTests: ['language'] },
  compare: {
    uses: ['checks', 'bench', 'analysis', 'physics', 'circuit', 'units'],
    inTests: ['language'],
  },
  diagram: {
    uses: ['analysis', 'physics', 'circuit', 'units'],
    inTests: ['language'],
    outside: ['elkjs'],
  },
  report: {
    uses: ['diagram', 'compare', 'checks', 'bench', 'analysis', 'physics', 'circuit', 'units'],
    inTests: ['language'],
    outside: ['d3-scale', 'd3-shape'],
  },
  server: {
    uses: [
      'language',
      'checks',
      'report',
      'compare',
      'diagram',
      'bench',
      'analysis',
      'physics',
      'circuit',
      'units',
      'webview',
    ],
    outside: [
      'langium',
      'chevrotain',
      'vscode-languageserver',
      'vscode-languageserver-protocol',
      'vscode-languageserver-textdocument',
      'vscode-uri',
      'elkjs',
    ],
    platform: true,
  },
  webview: { uses: [] },
  client: { uses: ['webview'], outside: ['vscode', 'vscode-languageclient'], platform: true },
  cli: {
    uses: [
      'language',
      'checks',
      'report',
      'compare',
      'diagram',
      'bench',
      'analysis',
      'physics',
      'circuit',
      'units',
      'server',
    ],
    outside: ['commander', 'tinyglobby', '@resvg/resvg-js'],
    platform: true,
  },
};

const anyOf = (names) => `(?:${names.join('|')})`;

/** Matches where an import of one of these packages leads, found or not, types and parts included. */
const outsidePath = (names) => `(?:^|node_modules/)(?:@types/|@)?${anyOf(names)}(?:/|$)`;

const wallsOf = ([name, { uses, inTests = [], outside = [], platform = false }]) => [
  {
    name: `${name}-uses`,
    comment: `${name} may use of ours: ${uses.join(', ') || 'nothing'}.`,
    severity: 'error',
    from: { path: `^packages/${name}/`, pathNot: `^packages/${name}/test/` },
    to: { path: '^packages/', pathNot: `^packages/${anyOf([name, ...uses])}/` },
  },
  {
    name: `${name}-tests-use`,
    comment: `The tests of ${name} may use of ours: ${[...uses, ...inTests].join(', ') || 'nothing'}.`,
    severity: 'error',
    from: { path: `^packages/${name}/test/` },
    to: { path: '^packages/', pathNot: `^packages/${anyOf([name, ...uses, ...inTests])}/` },
  },
  {
    name: `${name}-outside`,
    comment: `${name} may use from outside: ${outside.join(', ') || 'nothing'}.`,
    severity: 'error',
    from: { path: `^packages/${name}/src/` },
    to: {
      dependencyTypesNot: ['core'],
      pathNot: ['^packages/', ...(outside.length > 0 ? [outsidePath(outside)] : [])],
    },
  },
  ...(platform
    ? []
    : [
        {
          name: `${name}-no-platform`,
          comment: `${name} is plain data to plain data: no file, process or network.`,
          severity: 'error',
          from: { path: `^packages/${name}/src/` },
          to: { dependencyTypes: ['core'] },
        },
      ]),
];

/** Only these packages, tests included, may touch something from outside. */
const reservedFor = (what, owners, besides = '(?!)') => ({
  name: `${what[0]}-reserved`,
  comment: `Only ${owners.join(' and ')} may import ${what.join(', ')}.`,
  severity: 'error',
  from: { path: '^(?:packages|test)/', pathNot: [`^packages/${anyOf(owners)}/`, besides] },
  to: { path: outsidePath(what) },
});

const names = Object.keys(packages);

module.exports = {
  forbidden: [
    ...Object.entries(packages).flatMap(wallsOf),
    {
      name: 'package-without-walls',
      comment: 'Name the package in the table of this file and say what it may use.',
      severity: 'error',
      from: { path: '^packages/', pathNot: `^packages/${anyOf(names)}/` },
      to: {},
    },
    reservedFor(['langium', 'chevrotain'], ['language', 'server']),
    reservedFor(['vscode', 'vscode-languageclient'], ['client'], '^test/editor/host/'),
    {
      name: 'langium-platform',
      comment: 'The core reads no file: only the server may use the part of Langium that does.',
      severity: 'error',
      from: { path: '^packages/[^/]+/src/', pathNot: '^packages/server/' },
      to: { path: 'node_modules/langium/.*/node/' },
    },
    {
      name: 'nothing-imports-cli',
      comment: 'The command line tool is a way in, not a library; the fuzz goes in by it.',
      severity: 'error',
      from: { pathNot: ['^packages/cli/', '^test/fuzz/'] },
      to: { path: '^packages/cli/' },
    },
    {
      name: 'through-the-front-door',
      comment: 'Between packages import by name, which gives only what src/index.ts offers.',
      severity: 'error',
      from: { path: '^packages/([^/]+)/' },
      to: { path: '^packages/', pathNot: ['^packages/$1/', '^packages/[^/]+/src/index\\.ts$'] },
    },
    {
      name: 'by-name',
      comment: 'Between packages import by name, not by a path.',
      severity: 'error',
      from: { path: '^packages/([^/]+)/' },
      to: {
        path: '^packages/',
        pathNot: '^packages/$1/',
        dependencyTypes: ['local'],
        dependencyTypesNot: ['aliased-workspace'],
      },
    },
    {
      name: 'source-never-imports-test',
      severity: 'error',
      from: { path: '^packages/[^/]+/src/' },
      to: { path: ['^packages/[^/]+/test/', '^test/'] },
    },
    {
      name: 'no-cycles',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'resolvable',
      comment: 'An import that leads nowhere cannot be judged.',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '^vscode$' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(?:dist|coverage)/' },
    tsConfig: { fileName: 'tsconfig.json' },
    // Imports of types count too: they are dependencies of thought.
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
      extensions: ['.ts', '.mts', '.d.ts', '.mjs', '.js', '.cjs', '.json'],
    },
  },
};

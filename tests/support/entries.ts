import fs from 'node:fs'
import path from 'node:path'
import ts from 'typescript'
import { type Permission, permissions } from '@/lib/server/permissions'

const root = path.resolve(import.meta.dirname, '../..')

/** One way into the app, as the source tree holds it, with the permission its code asks for; null where it asks none. */
export type Entry = { readonly file: string; readonly name: string; readonly permission: Permission | null }

export function appFiles(ending: string): string[] {
  return fs
    .readdirSync(path.join(root, 'app'), { recursive: true, encoding: 'utf8' })
    .map((file) => `app/${file.split(path.sep).join('/')}`)
    .filter((file) => path.posix.basename(file) === ending)
    .sort()
}

const readSource = (file: string) =>
  ts.createSourceFile(file, fs.readFileSync(path.join(root, file), 'utf8'), ts.ScriptTarget.Latest, true)

/** The permission that a call names as its first argument: formAction('part.write', ...). */
function permissionOf(call: ts.Node | undefined, wrapper: string): Permission | null {
  if (!call || !ts.isCallExpression(call) || !ts.isIdentifier(call.expression)) return null
  if (call.expression.text !== wrapper) return null
  const first = call.arguments[0]
  return first && ts.isStringLiteral(first) && first.text in permissions ? (first.text as Permission) : null
}

const isExported = (node: ts.Node) =>
  ts.canHaveModifiers(node) &&
  ts.getModifiers(node)?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword) === true

/** What a file lets others call, and by which wrapper it is guarded. */
function exportsOf(file: string, wrapper: string): Entry[] {
  return readSource(file).statements.flatMap((statement): Entry[] => {
    if (ts.isExportDeclaration(statement)) return [{ file, name: statement.getText(), permission: null }]
    if (!isExported(statement)) return []
    if (ts.isFunctionDeclaration(statement)) {
      return [{ file, name: statement.name?.text ?? 'default', permission: null }]
    }
    if (!ts.isVariableStatement(statement)) return []
    return statement.declarationList.declarations.map(({ name, initializer }) => ({
      file,
      name: name.getText(),
      permission: permissionOf(initializer, wrapper),
    }))
  })
}

/** Every file that tells the framework its functions may be called from a browser. */
export function actionEntries(): Entry[] {
  const files = fs
    .readdirSync(path.join(root, 'app'), { recursive: true, encoding: 'utf8' })
    .map((file) => `app/${file.split(path.sep).join('/')}`)
    .filter((file) => /\.tsx?$/.test(file))
    .filter((file) => /^\s*['"]use server['"]/m.test(fs.readFileSync(path.join(root, file), 'utf8')))
  return files.sort().flatMap((file) => exportsOf(file, 'formAction'))
}

export function routeEntries(): Entry[] {
  return appFiles('route.ts').flatMap((file) =>
    exportsOf(file, 'shopRoute').filter(({ name }) => /^[A-Z]+$/.test(name)),
  )
}

/** A page asks for its permission before it awaits anything but its own address and the shop, without which it leads to setting up. */
export function pageEntries(): Entry[] {
  return appFiles('page.tsx').map((file) => {
    const awaited: ts.Expression[] = []
    const walk = (node: ts.Node): void => {
      if (ts.isAwaitExpression(node)) awaited.push(node.expression)
      ts.forEachChild(node, walk)
    }
    const page = readSource(file).statements.find(
      (statement) =>
        ts.isFunctionDeclaration(statement) &&
        isExported(statement) &&
        ts.getModifiers(statement)?.some(({ kind }) => kind === ts.SyntaxKind.DefaultKeyword),
    )
    if (page) walk(page)
    const first = awaited.find(
      (node) => !/^(params|searchParams|props\.\w+|readShop\(\))$/.test(node.getText()),
    )
    return { file, name: 'page', permission: permissionOf(first, 'requireActor') }
  })
}

/** The address of a page or route: app/parts/[id]/page.tsx is /parts/[id]. */
export function addressOf(file: string): string {
  const place = file.replace(/^app/, '').replace(/\/(page\.tsx|route\.ts)$/, '')
  return place === '' ? '/' : place
}

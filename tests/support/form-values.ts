import fs from 'node:fs'
import path from 'node:path'
import fc from 'fast-check'
import ts from 'typescript'
import { z } from 'zod'
import { actionEntries } from './entries'
import { hostileJson, hostileText } from './hostile'

const root = path.resolve(import.meta.dirname, '../..')
const units = { lengthUnit: 'in', currency: 'USD' } as const

/** What a form's field of this name may well hold: most of what is sent has to get past the first check to reach a row. */
function likelyText(name: string): fc.Arbitrary<string> {
  if (/id$/i.test(name)) return fc.integer({ min: 1, max: 30 }).map(String)
  if (/version|position/i.test(name)) return fc.integer({ min: 0, max: 3 }).map(String)
  if (/on$|date|until/i.test(name)) return fc.constantFrom('2026-12-01', '2027-02-28', '')
  if (/kind|way|state|role/i.test(name))
    return fc.constantFrom('', 'tube', 'hand', 'office', 'bench', 'owner', 'customer', 'accept', 'strap')
  return fc.oneof(
    fc.integer({ min: 0, max: 500 }).map(String),
    fc.constantFrom('1.5', '38.1', '1-1/2"', '30', '12%', '2 h', 'Davit arm', 'Kestrel', ''),
  )
}

/** Walks a form and makes something for every field, at all depths: mostly what fits, with something hostile in between. */
function valueFor(schema: z.ZodType, name: string, depth = 0): fc.Arbitrary<unknown> {
  const spoiled = (fits: fc.Arbitrary<unknown>) =>
    fc.oneof(
      { weight: 12, arbitrary: fits },
      { weight: 2, arbitrary: hostileText },
      { weight: 1, arbitrary: hostileJson },
    )
  if (depth > 6) return fc.constant(null)
  const inner = (part: unknown) => valueFor(part as z.ZodType, name, depth + 1)
  if (schema instanceof z.ZodObject) {
    const fields = Object.entries(schema.shape)
    return spoiled(
      fc.record(Object.fromEntries(fields.map(([key, field]) => [key, valueFor(field, key, depth + 1)]))),
    )
  }
  if (schema instanceof z.ZodArray) return spoiled(fc.array(inner(schema.element), { maxLength: 3 }))
  if (schema instanceof z.ZodEnum)
    return spoiled(fc.constantFrom<unknown>(...(schema.options as readonly unknown[])))
  if (schema instanceof z.ZodLiteral) return spoiled(fc.constantFrom<unknown>(...schema.values))
  if (schema instanceof z.ZodUnion) return fc.oneof(...schema.options.map(inner))
  if (schema instanceof z.ZodPipe) return inner(schema.in)
  if (schema instanceof z.ZodBoolean) return spoiled(fc.boolean())
  if (schema instanceof z.ZodRecord)
    return spoiled(fc.dictionary(hostileText, inner(schema.valueType), { maxKeys: 3 }))
  if (
    schema instanceof z.ZodOptional ||
    schema instanceof z.ZodNullable ||
    schema instanceof z.ZodDefault ||
    schema instanceof z.ZodCatch
  )
    return fc.option(inner(schema.unwrap()), { nil: undefined, freq: 3 })
  return spoiled(likelyText(name))
}

/** The name of the schema that an action is made with, and the file it comes from. */
function schemasOfActions(file: string): Map<string, { schema: string; from: string }> {
  const source = ts.createSourceFile(
    file,
    fs.readFileSync(path.join(root, file), 'utf8'),
    ts.ScriptTarget.Latest,
    true,
  )
  const from = new Map<string, string>()
  const found = new Map<string, { schema: string; from: string }>()
  const walk = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) && ts.isStringLiteral(node.moduleSpecifier)) {
      const named = node.importClause?.namedBindings
      if (named && ts.isNamedImports(named))
        for (const one of named.elements) from.set(one.name.text, node.moduleSpecifier.text)
    }
    if (ts.isVariableDeclaration(node) && node.initializer && ts.isCallExpression(node.initializer)) {
      const names: string[] = []
      const identifiers = (part: ts.Node): void => {
        if (ts.isIdentifier(part)) names.push(part.text)
        ts.forEachChild(part, identifiers)
      }
      const second = node.initializer.arguments[1]
      if (second) identifiers(second)
      const schema = names.find((name) => from.get(name)?.startsWith('@/lib/records/'))
      if (schema) found.set(node.name.getText(), { schema, from: from.get(schema) ?? '' })
    }
    ts.forEachChild(node, walk)
  }
  walk(source)
  return found
}

export type ActionForm = { name: string; permission: string | null; values: fc.Arbitrary<unknown> }

/** Every action of the sources with something to send it, made from the form it says it takes. */
export async function actionForms(): Promise<ActionForm[]> {
  const forms: ActionForm[] = []
  for (const { file, name, permission } of actionEntries()) {
    const named = schemasOfActions(file).get(name)
    let values = hostileJson
    if (named) {
      const exported = (await import(path.join(root, `${named.from.slice(2)}.ts`))) as Record<string, unknown>
      const made = exported[named.schema]
      const schema: unknown =
        typeof made === 'function' ? (made as (given: typeof units) => unknown)(units) : made
      if (schema instanceof z.ZodType) values = valueFor(schema, name)
    }
    forms.push({ name, permission, values })
  }
  return forms
}

import { createElement, Fragment, type ReactNode } from 'react'

const operators = /^[=+−·≤≥<>±(),;|∫∑√∞≈/]$/

/** One symbol: M, M_tube, ε, 0.5; a mark below after _, a power after ^. */
function symbol(text: string): ReactNode {
  const parts = /^([^_^]+)(?:_([^_^]+))?(?:\^(.+))?$/.exec(text)
  const base = leaf(parts?.[1] ?? text)
  const below = parts?.[2]
  const power = parts?.[3]
  if (below !== undefined && power !== undefined)
    return createElement('msubsup', null, base, leaf(below, true), leaf(power))
  if (below !== undefined) return createElement('msub', null, base, leaf(below, true))
  if (power !== undefined) return createElement('msup', null, base, leaf(power))
  return base
}

const functions = /^(sin|cos|ln|min)$/

function leaf(text: string, upright = false): ReactNode {
  if (functions.test(text)) {
    return createElement(
      'mrow',
      null,
      createElement('mi', null, text),
      createElement('mspace', { width: '0.2em' }),
    )
  }
  if (operators.test(text)) return createElement('mo', null, text)
  if (/^\d/.test(text)) return createElement('mn', null, text)
  return createElement('mi', upright && text.length > 1 ? { mathvariant: 'normal' } : null, text)
}

type Part = string | { readonly node: ReactNode }

/** Symbols set apart by spaces, and the built-up parts between them. */
function row(parts: readonly Part[]): ReactNode {
  const nodes = parts.flatMap((part) =>
    typeof part === 'string'
      ? part
          .split(' ')
          .filter((word) => word !== '')
          .map(symbol)
      : [part.node],
  )
  return createElement('mrow', null, ...nodes.map((node, index) => <Fragment key={index}>{node}</Fragment>))
}

const list = (part: Part | readonly Part[]): readonly Part[] =>
  typeof part === 'string' || 'node' in part ? [part] : part

export function over(above: Part | readonly Part[], below: Part | readonly Part[]): Part {
  return { node: createElement('mfrac', null, row(list(above)), row(list(below))) }
}

export function raised(base: Part | readonly Part[], power: string): Part {
  return { node: createElement('msup', null, row(['(', ...list(base), ')']), row([power])) }
}

/** Equations set apart by a semicolon, each by itself, so that they can stand under one another where there is no room. */
function equations(parts: readonly Part[]): Part[][] {
  return parts.reduce<Part[][]>(
    (all, part) => {
      if (part === ';') return [...all, []]
      all.at(-1)?.push(part)
      return all
    },
    [[]],
  )
}

/** One or more equations on a line of their own, as MathML; `words` says them to who hears the page. */
export function Formula({ of, words }: { of: readonly Part[]; words: string }) {
  return (
    <div className="formula" role="math" aria-label={words}>
      {equations(of).map((parts, index) => (
        <Fragment key={index}>
          {createElement('math', { display: 'block', 'aria-hidden': true }, row(parts))}
        </Fragment>
      ))}
    </div>
  )
}

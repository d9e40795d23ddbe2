/** What `renderToStaticMarkup` writes of the numbers' page, as Markdown with its formulas in LaTeX. */

type Element = { tag: string; attributes: string; children: Node[] }
type Node = string | Element

const entities: Readonly<Record<string, string>> = {
  '&amp;': '&',
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#x27;': "'",
}
const decoded = (text: string) =>
  text.replace(/&(amp|lt|gt|quot|#x27);/g, (entity) => entities[entity] ?? entity)

function parse(html: string): Node[] {
  const root: Element = { tag: 'root', attributes: '', children: [] }
  const open = [root]
  for (const [, closing, tag, attributes = '', alone, text] of html.matchAll(
    /<(\/)?([a-z][a-z0-9]*)((?:\s[^>]*?)?)(\/)?>|([^<]+)/g,
  )) {
    const inside = open.at(-1) ?? root
    if (text !== undefined) inside.children.push(decoded(text))
    else if (closing) {
      if (open.pop()?.tag !== tag) throw new Error(`</${tag}> closes nothing`)
    } else {
      const element: Element = { tag: tag ?? '', attributes, children: [] }
      inside.children.push(element)
      if (!alone) open.push(element)
    }
  }
  if (open.length !== 1) throw new Error(`<${open.at(-1)?.tag}> is left open`)
  return root.children
}

const hasClass = ({ attributes }: Element, name: string) =>
  new RegExp(`class="(?:[^"]* )?${name}(?: [^"]*)?"`).test(attributes)
const isElement = (node: Node): node is Element => typeof node !== 'string'
const elements = (nodes: readonly Node[]) => nodes.filter(isElement)
const all = (nodes: readonly Node[], tag: string): Element[] =>
  elements(nodes).flatMap((one) => (one.tag === tag ? [one] : all(one.children, tag)))

function textOf(nodes: readonly Node[]): string {
  return nodes
    .map((node) => {
      if (!isElement(node)) return node
      if (node.tag === 'svg') return ''
      const inside = textOf(node.children)
      return hasClass(node, 'unit') ? ` ${inside}` : inside
    })
    .join('')
    .replace(/\s+/g, ' ')
}
const words = (nodes: readonly Node[]) =>
  textOf(nodes)
    .trim()
    .replace(/[\\*_<|]/g, (mark) => `\\${mark}`)

const signs: Readonly<Record<string, string>> = {
  '−': '-',
  '·': '\\cdot',
  '∫': '\\int',
  '∑': '\\sum',
  '√': '\\surd',
}

/** One formula's MathML as LaTeX. */
function latex(node: Node): string {
  if (!isElement(node)) return node
  const parts = node.children.map(latex)
  const [first = '', second = '', third = ''] = parts
  switch (node.tag) {
    case 'mfrac':
      return `\\frac{${first}}{${second}}`
    case 'msub':
      return `{${first}}_{${second}}`
    case 'msup':
      return `{${first}}^{${second}}`
    case 'msubsup':
      return `{${first}}_{${second}}^{${third}}`
    // LaTeX sets its functions apart by itself.
    case 'mspace':
      return ''
    case 'mi':
      if (/^(sin|cos|ln|min)$/.test(first)) return `\\${first}`
      return first.length > 1 ? `\\mathrm{${first}}` : first
    case 'mo':
      return signs[first] ?? first
    default:
      return parts.join(' ')
  }
}

function table(element: Element): string {
  const rows = all([element], 'tr').map((row) =>
    elements(row.children).map((cell) => words(cell.children) || ' '),
  )
  const [head = [], ...body] = rows
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`
  return [line(head), line(head.map(() => '---')), ...body.map(line)].join('\n')
}

function block(node: Node): string[] {
  if (!isElement(node)) return node.trim() ? [words([node])] : []
  const { tag, children } = node
  if (hasClass(node, 'formula'))
    return all(children, 'math').map(
      (math) => `\`\`\`math\n${latex(math).replace(/ +/g, ' ').trim()}\n\`\`\``,
    )
  if (hasClass(node, 'notice')) return [quote(node)]
  switch (tag) {
    case 'h2':
      return [`## ${words(children)}`]
    case 'h3':
      return [`### ${words(children)}`]
    case 'p':
      return [hasClass(node, 'strong') ? `**${words(children)}**` : words(children)]
    case 'ul':
      return [
        elements(children)
          .map((item) => `- ${words(item.children)}`)
          .join('\n'),
      ]
    case 'table':
      return [table(node)]
    case 'details': {
      const [summary, ...rest] = elements(children)
      const told = summary ? words(summary.children) : ''
      return [`<details><summary>${told}</summary>`, ...rest.flatMap(block), '</details>']
    }
    case 'svg':
    case 'button':
      return []
    default:
      return children.flatMap(block)
  }
}

/** A notice's title, then what it says. */
function quote(notice: Element): string {
  const [body = notice] = elements(notice.children).filter((one) => hasClass(one, 'notice-body'))
  const [title, ...rest] = elements(body.children)
  return `> **${words(title?.children ?? [])}.** ${words(rest)}`
}

export function asMarkdown(html: string): string {
  return `${parse(html).flatMap(block).join('\n\n')}\n`
}

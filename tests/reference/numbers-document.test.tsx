import fs from 'node:fs'
import path from 'node:path'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { outsideResults } from '@/app/numbers/results'
import { ModelCaution, modelIntroduction, modelTitle, WholeModel } from '@/app/numbers/whole-model'
import { asMarkdown } from '@/tests/support/as-markdown'

/** To be read without running the app; made of the same as its page, by this test and nothing else. */
const file = path.join(import.meta.dirname, '../../app/numbers/how-the-numbers-are-made.md')

const made = () =>
  `# ${modelTitle}\n\n${modelIntroduction}\n\n${asMarkdown(
    renderToStaticMarkup(
      <>
        <ModelCaution />
        <WholeModel />
      </>,
    ),
  )}`

describe('the document of the model', () => {
  it('is the page, word for word', () => {
    const now = made()
    if (process.env.BENDWRIGHT_RECORD_CHECKS === '1') fs.writeFileSync(file, now)
    expect(
      fs.readFileSync(file, 'utf8'),
      'run BENDWRIGHT_RECORD_CHECKS=1 npx vitest run tests/reference',
    ).toBe(now)
  })

  it('leaves no word of the page out but the captions of its tables and how formulas are spoken', () => {
    const html = renderToStaticMarkup(<WholeModel />)
    const plain = (text: string) => text.replace(/\\([\\*_<|])/g, '$1').replace(/\s+/g, ' ')
    const document = plain(asMarkdown(html))
    const texts = [...html.replace(/<(caption|math)\b.*?<\/\1>/g, '').matchAll(/>([^<]+)</g)].map(
      ([, text = '']) =>
        text
          .replace(/&lt;/g, '<')
          .replace(/&gt;/g, '>')
          .replace(/&#x27;/g, "'")
          .replace(/&quot;/g, '"')
          .replace(/&amp;/g, '&'),
    )
    expect(texts.length).toBeGreaterThan(1000)
    expect(texts.map((text) => plain(text).trim()).filter((text) => !document.includes(text))).toEqual([])
  })

  it('tells every number from outside, expected and got', () => {
    const rows = made()
      .split('\n')
      .filter((line) => line.startsWith('| ') && line.includes('±'))
    expect(rows).toHaveLength(outsideResults.length)
  })
})

describe('Markdown of a page', () => {
  it('sets a formula in LaTeX, a table in columns, a notice as a quotation', () => {
    expect(
      asMarkdown(
        '<div class="formula"><math><mrow><mi>ε</mi><mo>=</mo><mfrac><mrow><mi>s</mi></mrow><mrow><msub><mi>F</mi><mi>ty</mi></msub></mrow></mfrac></mrow></math></div>',
      ),
    ).toBe('```math\nε = \\frac{s}{{F}_{\\mathrm{ty}}}\n```\n')
    expect(
      asMarkdown('<table><tr><th>A</th><th>B</th></tr><tr><td>1 &lt; 2</td><td>a|b</td></tr></table>'),
    ).toBe('| A | B |\n| --- | --- |\n| 1 \\< 2 | a\\|b |\n')
    expect(
      asMarkdown(
        '<div class="notice notice-caution"><svg><path></path></svg><div class="notice-body"><div class="notice-title">Hot</div><div>Wear gloves.</div></div></div>',
      ),
    ).toBe('> **Hot.** Wear gloves.\n')
    expect(asMarkdown('<h2>One</h2><ul><li>x_1</li><li>y</li></ul>')).toBe('## One\n\n- x\\_1\n- y\n')
  })
  it('refuses what is not closed', () => {
    expect(() => asMarkdown('<p>never')).toThrow(/left open/)
    expect(() => asMarkdown('<p>a</b>')).toThrow(/closes nothing/)
  })
})

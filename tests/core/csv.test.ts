import { describe, expect, it } from 'vitest'
import { csvText } from '@/lib/core/csv'

describe('rows as comma-separated text', () => {
  it('end each line with CRLF and leave a cell without a value empty. Source: RFC 4180, 2', () => {
    expect(
      csvText([
        ['part', 'price', 'note'],
        ['P-1', 12.5, null],
      ]),
    ).toBe('part,price,note\r\nP-1,12.5,\r\n')
    expect(csvText([])).toBe('')
  })

  it('quote a comma, a quote and a line break, quotes doubled. Source: RFC 4180, 5 to 7', () => {
    expect(csvText([['a,b', 'say "no"', 'two\nlines']])).toBe('"a,b","say ""no""","two\nlines"\r\n')
  })

  it('keep a text from being taken for a formula, and a number as it is. Source: OWASP, CSV Injection', () => {
    expect(csvText([['=1+1', '+1', '-1', '@sum', '\tx', '＝1']])).toBe("'=1+1,'+1,'-1,'@sum,'\tx,'＝1\r\n")
    expect(csvText([[-4, 0, 1e-7]])).toBe('-4,0,1e-7\r\n')
    expect(csvText([['a=b', '1-2']])).toBe('a=b,1-2\r\n')
  })
})

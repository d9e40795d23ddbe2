import { describe, expect, it } from 'vitest'
import { byteText, cleanFileName, dispositionHeader, sniffedKind } from '@/lib/records/file/rules'

const bytes = (text: string, ...head: number[]) => new Uint8Array([...head, ...Buffer.from(text, 'latin1')])

describe('what a file is', () => {
  it('is told by its first bytes', () => {
    // Signatures: ISO 32000-1 7.5.2, ISO/IEC 15948 5.2, ISO/IEC 10918-1 B.1.1.3, ISO 10303-21 5.2.
    expect(sniffedKind(bytes('%PDF-1.7\n'))).toBe('pdf')
    expect(sniffedKind(bytes('', 0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0))).toBe('png')
    expect(sniffedKind(bytes('JFIF', 0xff, 0xd8, 0xff, 0xe0))).toBe('jpeg')
    expect(sniffedKind(bytes('ISO-10303-21;\nHEADER;'))).toBe('step')
    expect(sniffedKind(bytes('  0\r\nSECTION\r\n  2\r\nHEADER\r\n'))).toBe('dxf')
    expect(sniffedKind(bytes('999\nmade by hand\n0\nSECTION\n2\nENTITIES\n'))).toBe('dxf')
  })

  it('is nothing the shop keeps when it could run in a browser or is something else', () => {
    expect(sniffedKind(bytes('<svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>'))).toBeNull()
    expect(sniffedKind(bytes('<!doctype html>%PDF-1.7'))).toBeNull()
    expect(sniffedKind(bytes('MZ\u0090'))).toBeNull()
    expect(sniffedKind(new Uint8Array())).toBeNull()
  })
})

describe('a file’s name', () => {
  it('is never a path', () => {
    expect(cleanFileName('../../etc/passwd')).toBe('passwd')
    expect(cleanFileName('C:\\drawings\\arm.pdf')).toBe('arm.pdf')
    expect(cleanFileName('..')).toBe('drawing')
    expect(cleanFileName('a/')).toBe('drawing')
  })

  it('keeps every letter and loses what cannot be printed', () => {
    expect(cleanFileName('Ruderausleger für Ærø.pdf')).toBe('Ruderausleger für Ærø.pdf')
    expect(cleanFileName('arm\r\nset-cookie: a=b.pdf')).toBe('armset-cookie: a=b.pdf')
    expect(cleanFileName('invoice\u202Efdp.exe')).toBe('invoicefdp.exe')
  })

  it('is cut to 120 characters before its ending', () => {
    const cut = cleanFileName(`${'å'.repeat(300)}.step`)
    expect([...cut]).toHaveLength(120)
    expect(cut.endsWith('.step')).toBe(true)
  })
})

describe('the header that gives a file back', () => {
  it('holds any name without breaking out of it', () => {
    const header = dispositionHeader('a"; filename="evil.html\r\nx: y;%41\\.pdf', true)
    expect(header).not.toMatch(/[\r\n]/)
    expect(header.match(/"/g)).toHaveLength(2)
    expect(header.startsWith('inline; filename="')).toBe(true)
  })

  it('spells the real name in UTF-8', () => {
    // Worked by hand: é is C3 A9 in UTF-8 (RFC 8187, 3.2.1).
    expect(dispositionHeader('pièce (é).pdf', false)).toBe(
      `attachment; filename="pi_ce (_).pdf"; filename*=UTF-8''pi%C3%A8ce%20%28%C3%A9%29.pdf`,
    )
  })
})

describe('a size', () => {
  it('is shown in thousands', () => {
    expect([byteText(999), byteText(1500), byteText(26_214_400)]).toEqual(['999 B', '2 kB', '26.2 MB'])
  })
})

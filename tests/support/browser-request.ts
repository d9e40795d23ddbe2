/** Stands in for next/headers: one browser's cookies and where it asks from. */
const jar = new Map<string, string>()
let address = '10.0.0.7'
let said: Record<string, string> = {}

export function forgetBrowser(): void {
  jar.clear()
  address = '10.0.0.7'
  said = {}
}

export function askFrom(newAddress: string): void {
  address = newAddress
}

/** Further headers of the requests from here on: origin, host. */
export function browserSays(headers: Record<string, string>): void {
  said = headers
}

export function cookieValue(name: string): string | undefined {
  return jar.get(name)
}

export async function cookies() {
  return {
    get: (name: string) => (jar.has(name) ? { name, value: jar.get(name) } : undefined),
    set: (name: string, value: string) => void jar.set(name, value),
    delete: (name: string) => void jar.delete(name),
  }
}

export async function headers() {
  return new Headers({ 'x-forwarded-for': address, 'user-agent': 'the tests', ...said })
}

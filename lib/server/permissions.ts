import type { Role } from '@/lib/server/generated/prisma/enums'

const everyone = ['owner', 'office', 'bench'] as const
const desk = ['owner', 'office'] as const
const owner = ['owner'] as const

/**
 * Who may do what: the one table that every page, action and route is checked against.
 * The bench sees what it needs to make a part, and no price.
 */
export const permissions = {
  'today.read': everyone,
  'part.read': everyone,
  'part.write': desk,
  'file.read': everyone,
  'file.write': desk,
  'customer.read': desk,
  'customer.write': desk,
  'stock.read': everyone,
  'stock.write': desk,
  'filler.write': everyone,
  'tooling.read': everyone,
  'tooling.write': desk,
  'material.read': everyone,
  'material.write': desk,
  'estimate.read': desk,
  'estimate.write': desk,
  'source.read': desk,
  'source.write': desk,
  'ask.read': desk,
  'ask.write': desk,
  'decision.read': desk,
  'decision.write': desk,
  'quote.read': desk,
  'quote.write': desk,
  'job.read': everyone,
  'job.write': desk,
  'bench.read': everyone,
  'bench.write': everyone,
  'fault.write': everyone,
  'fault.decide': desk,
  'release.write': desk,
  'lesson.read': everyone,
  'lesson.accept': owner,
  'shop.read': desk,
  'shop.write': owner,
  'person.read': owner,
  'person.write': owner,
  'device.write': owner,
  'audit.read': owner,
  'data.export': owner,
  'demo.remove': owner,
  'own.password': everyone,
} as const satisfies Record<string, readonly Role[]>

export type Permission = keyof typeof permissions

export function roleMay(role: Role, permission: Permission): boolean {
  return (permissions[permission] as readonly Role[]).includes(role)
}

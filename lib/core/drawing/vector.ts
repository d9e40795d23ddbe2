/** A point or direction in space, mm or unit length. */
export type Vec3 = readonly [number, number, number]

/** A point on the sheet. */
export type Point = readonly [number, number]

export function add(a: Vec3, b: Vec3): Vec3 {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

export function subtract(a: Vec3, b: Vec3): Vec3 {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

export function scale(a: Vec3, factor: number): Vec3 {
  return [a[0] * factor, a[1] * factor, a[2] * factor]
}

export function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

export function cross(a: Vec3, b: Vec3): Vec3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

export function length(a: Vec3): number {
  return Math.hypot(a[0], a[1], a[2])
}

/** The direction of `a`; a vector without length stays as it is. */
export function unit(a: Vec3): Vec3 {
  const long = length(a)
  return long > 0 ? scale(a, 1 / long) : a
}

/** `a` turned by the right-hand rule about a unit axis through the origin (Rodrigues' formula). */
export function turn(a: Vec3, axis: Vec3, angleRad: number): Vec3 {
  const cos = Math.cos(angleRad)
  const sin = Math.sin(angleRad)
  const along = dot(axis, a) * (1 - cos)
  return add(add(scale(a, cos), scale(cross(axis, a), sin)), scale(axis, along))
}

export function radians(angleDeg: number): number {
  return (angleDeg * Math.PI) / 180
}

import { register } from 'node:module'

// A program of the tests that runs outside Next and vitest: 'server-only', which stops everybody else, is nothing here.
const hook = `export const resolve = (name, context, next) =>
  name === 'server-only' ? { url: 'data:text/javascript,', shortCircuit: true } : next(name, context)`
register(`data:text/javascript,${encodeURIComponent(hook)}`)

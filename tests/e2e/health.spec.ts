import { expect, test } from '../support/browser-test'
import { emptyServedDatabase, servedRows, servedSetupKey } from '../support/served-database'

test('the app says that it runs, and before the first account only the printed key opens the setting up', async ({
  request,
}) => {
  await emptyServedDatabase()
  expect(await servedRows('select id from "User"')).toEqual([])
  expect(servedSetupKey().length).toBeGreaterThan(16)
  expect(await (await request.get('/api/health')).json()).toEqual({ ok: true })
})

import type { Page } from '@playwright/test'
import { servedSetupKey } from './served-database'

export const ownerPassword = 'three words of a harbour'

/** An empty shop with its owner, Mara Quill, signed in. */
export async function setUpShop(page: Page): Promise<void> {
  await page.goto(`/setup?key=${servedSetupKey()}`)
  await page.getByLabel('An empty shop').check()
  await page.getByLabel('Name of the shop').fill('Tidewrack Fabrication')
  await page.getByLabel('Your name').fill('Mara Quill')
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill(ownerPassword)
  await page.getByRole('button', { name: 'Set up the shop' }).click()
  await page.waitForURL((url) => url.pathname === '/')
}

export async function signIn(page: Page, login: string, typed: string): Promise<void> {
  await page.getByLabel('Sign-in name').fill(login)
  await page.getByLabel('Password').fill(typed)
  await page.getByRole('button', { name: 'Sign in' }).click()
}

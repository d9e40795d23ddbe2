import { expect, type Page } from '@playwright/test'
import { emptyServedDatabase, servedRows, servedSetupKey } from './served-database'

/** What people do in the shop, one verb each. */

/** The demo shop, its owner signed in. */
export async function openDemoShop(page: Page): Promise<void> {
  await emptyServedDatabase()
  await page.goto(`/setup?key=${servedSetupKey()}`)
  await page.getByLabel('The demo shop').check()
  await page.getByLabel('Name of the shop').fill('Tidewrack Fabrication')
  await page.getByLabel('Your name').fill('Mara Quill')
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill('salt-marsh-and-tide')
  await page.locator('button[type=submit]').click()
  await expect(page.getByRole('heading', { name: 'Today', level: 1 })).toBeVisible({ timeout: 90_000 })
}

/** A new shop that works in inches, nothing in it but its owner, who is signed in from here on. */
export async function openEmptyShop(page: Page): Promise<void> {
  await emptyServedDatabase()
  await page.goto(`/setup?key=${servedSetupKey()}`)
  await page.getByLabel('An empty shop').check()
  await page.getByLabel('Name of the shop').fill('Tidewrack Fabrication')
  await page.getByLabel('Your name').fill('Mara Quill')
  await page.getByLabel('Sign-in name').fill('mara')
  await page.getByLabel('Password').fill('salt-marsh-and-tide')
  await page.getByRole('button', { name: 'Set up the shop' }).click()
  await expect(page).not.toHaveURL(/setup/)
}

/** Press, die, strap, a pot with 40 kg of the eutectic, and three bars of 1-1/2 in square tube with their heat number. */
export async function equipShop(page: Page): Promise<void> {
  await page.goto('/shop/presses/new')
  await page.getByLabel('Shop number').fill('PR-1')
  await page.getByLabel('Name').fill('H-frame by the door')
  await page.getByLabel('Rated force').fill('178 kN')
  await page.getByLabel('Nose radius of the supports').fill('3/4')
  await page.getByLabel('Shortest span').fill('8')
  await page.getByLabel('Longest span').fill('36')
  await page.getByRole('button', { name: 'Add the press' }).click()
  await page.waitForURL(/\/shop\/presses$/)

  await page.goto('/shop/dies/new')
  await page.getByLabel('Shop number').fill('D-1')
  await page.getByLabel('Surface radius').fill('11-1/4')
  await page.getByLabel('Groove width').fill('1-1/2')
  await page.getByRole('button', { name: 'Add the die' }).click()
  await page.waitForURL(/\/shop\/dies$/)

  await page.goto('/shop/straps/new')
  await page.getByLabel('Shop number').fill('S-1')
  await page.getByLabel('Thickness').fill('1/8')
  await page.getByLabel('Width').fill('1-1/2')
  await page.getByLabel('Length').fill('30')
  await page.getByLabel('Yield strength').fill('350 MPa')
  await page.getByRole('button', { name: 'Add the strap' }).click()
  await page.waitForURL(/\/shop\/straps$/)

  await page.goto('/shop/fillers/new')
  await page.getByLabel('Shop number').fill('F-1')
  await page.getByLabel('Name').fill('Big pot by the tank')
  await page.getByLabel('Price a kilogram').fill('48')
  await page.getByRole('button', { name: 'Add the pot' }).click()
  await page.waitForURL(/\/shop\/fillers$/)
  await page.getByRole('link', { name: /F-1/ }).click()
  await page.getByLabel(/^Bought/).check()
  await page.getByLabel('Mass').fill('40 kg')
  await page.getByRole('button', { name: 'Enter it' }).click()
  await expect(page.getByRole('row', { name: /Bought/ })).toBeVisible()

  await page.goto('/stock/new')
  await page.getByLabel('Material and temper').selectOption('6061-T6')
  await page.getByLabel('Side', { exact: true }).fill('1-1/2')
  await page.getByLabel('Wall', { exact: true }).fill('1/8')
  await page.getByLabel('How many').fill('3')
  await page.getByLabel('Length of each').fill("20'")
  await page.getByLabel('Heat number').fill('H22914')
  await page.getByLabel('Price', { exact: true }).fill('4.57')
  await page.getByRole('button', { name: 'Put it on the rack' }).click()
  await expect(page.getByRole('heading', { name: /^6061-T6, square 1.5/, level: 1 })).toBeVisible()
}

export async function addCustomer(page: Page, name: string): Promise<void> {
  await page.goto('/customers/new')
  await page.getByLabel('Name').first().fill(name)
  await page.getByRole('group', { name: 'Contact 1' }).getByLabel('Name').fill('Ida Brandt')
  await page.getByRole('button', { name: 'Add the customer' }).click()
  await expect(page.getByRole('heading', { name, level: 1 })).toBeVisible()
}

export async function typeBend(page: Page, number: number, bend: Record<string, string>): Promise<void> {
  const group = page.getByRole('group', { name: `Bend ${number}` })
  for (const [label, value] of Object.entries(bend)) await group.getByLabel(label).fill(value)
}

export async function addBender(page: Page, name: string): Promise<void> {
  await page.goto('/sources/new')
  await page.getByLabel('Name', { exact: true }).fill(name)
  await page.getByRole('button', { name: 'Add the bender' }).click()
  await expect(page.getByRole('heading', { name, level: 1 })).toBeVisible()
}

export async function openAsk(page: Page, partId: number, bender: string): Promise<void> {
  await page.goto(`/parts/${partId}/asks`)
  await page.getByRole('link', { name: new RegExp(`^A-\\d+ ${bender}$`) }).click()
  await expect(page.getByRole('heading', { name: bender, level: 1 })).toBeVisible()
}

/** Logs one try at the bench; the entry is kept on the device first, so it is there when the shop has judged it. */
export async function logTry(
  page: Page,
  at: { scanCode: string; bend: number; tryNumber: number; atPressDeg: string; finalDeg: string },
): Promise<void> {
  await page.goto(`/bench/${at.scanCode}?bend=${at.bend}`)
  const angle = (name: string) => page.getByRole('textbox', { name, exact: true })
  await angle('Angle at the press, let go').fill(at.atPressDeg)
  await angle('Angle after melt-out').fill(at.finalDeg)
  await page.getByRole('button', { name: 'Next: look' }).click()
  await page.getByLabel('Clean', { exact: true }).check()
  await page.getByRole('button', { name: 'Log this try' }).click()
  await expect(
    page.getByRole('list', { name: 'Tries so far' }).getByText(new RegExp(`Try ${at.tryNumber}\\b`)),
  ).toBeVisible()
}

export async function partIdOf(name: string): Promise<number> {
  const [part] = await servedRows<{ id: number }>('select id from "Part" where name = $1', [name])
  if (!part) throw new Error(`there is no part called ${name}`)
  return part.id
}

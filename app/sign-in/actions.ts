'use server'

import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { ownSitePath } from '@/lib/records/session/rules'
import { pinSignInForm, signInForm } from '@/lib/records/session/schema'
import { signIn, signInWithPin, signOut } from '@/lib/records/session/write'
import { postAction } from '@/lib/server/post-action'

export const signInAction = postAction('sign in', signInForm, async (input) => {
  await signIn(input)
  return ownSitePath(input.then)
})

export const pinSignInAction = postAction('sign in by PIN', pinSignInForm, async (input) => {
  await signInWithPin(input)
  return ownSitePath(input.then)
})

export async function signOutAction(): Promise<void> {
  await signOut()
  revalidatePath('/', 'layout')
  redirect('/sign-in')
}

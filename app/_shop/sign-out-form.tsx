import { Button } from '@/app/_ui/button'
import { signOutAction } from '@/app/sign-in/actions'

export function SignOutForm() {
  return (
    <form action={signOutAction}>
      <Button type="submit" kind="quiet">
        Sign out
      </Button>
    </form>
  )
}

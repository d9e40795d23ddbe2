import { LinkButton } from './_ui/button'
import { Empty } from './_ui/empty'

export const metadata = { title: 'Not found' }

export default function NotFound() {
  return (
    <main className="shell-main shell-main-narrow">
      <h1 className="visually-hidden">Not found</h1>
      <Empty title="There is no such record here" action={<LinkButton href="/">Go to today</LinkButton>}>
        It may have been removed, the address may be mistyped, or your role may not open it.
      </Empty>
    </main>
  )
}

import { LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { PageHead } from '@/app/_ui/page-head'

export default function NoSuchPiece() {
  return (
    <>
      <PageHead title="No piece has this code" trail={[{ label: 'Bench', href: '/bench' }]} />
      <Empty
        title="Is the traveller an old one?"
        action={<LinkButton href="/bench">Pick the piece</LinkButton>}
      >
        Scan the code again, or pick the piece by its job and number.
      </Empty>
    </>
  )
}

import type { Metadata } from 'next'
import { PressAction } from '@/app/_shop/press-action'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { readDemoIsHere } from '@/lib/records/demo/read'
import { requireActor } from '@/lib/server/session'
import { removeDemoAction } from './actions'

export const metadata: Metadata = { title: 'Demo shop' }

export default async function DemoPage() {
  await requireActor('demo.remove')
  const isHere = await readDemoIsHere()
  return (
    <>
      <PageHead title="Demo shop" trail={[{ label: 'Shop', href: '/shop' }]} />
      {isHere ? (
        <Notice
          kind="stop"
          title="Takes away every record of Tidewrack Fabrication"
          actions={
            <PressAction kind="stop" label="Remove the demo shop" input={{}} action={removeDemoAction} />
          }
        >
          Its customers, parts, quotes, jobs and tools go, and so does whatever you entered for them.
          Accounts, settings, rates, the audit trail and everything of your own customers stay.
        </Notice>
      ) : (
        <p>There is no demo shop here: everything in the lists is your own.</p>
      )}
    </>
  )
}

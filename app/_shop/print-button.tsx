'use client'

import { Button } from '@/app/_ui/button'

export function PrintButton() {
  return <Button onClick={() => window.print()}>Print</Button>
}

'use client'

import { useEffect } from 'react'
import { forgetKeptScreens } from '@/app/bench/kept-screen'

/** Nobody is signed in here any more: the bench screens kept for the last person go. */
export function ForgetBench() {
  useEffect(() => void forgetKeptScreens().catch(() => {}), [])
  return null
}

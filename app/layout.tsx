import '@fontsource/ibm-plex-sans/latin-400.css'
import '@fontsource/ibm-plex-sans/latin-ext-400.css'
import '@fontsource/ibm-plex-sans/greek-400.css'
import '@fontsource/ibm-plex-sans/latin-600.css'
import '@fontsource/ibm-plex-sans/latin-ext-600.css'
import '@fontsource/ibm-plex-mono/latin-400.css'
import '@fontsource/ibm-plex-mono/latin-ext-400.css'
import './globals.css'
import type { Metadata, Viewport } from 'next'
import { headers } from 'next/headers'
import type { ReactNode } from 'react'
import { EarlyTypingGivenBack } from './_ui/early-typing'
import { earlyTypingScript } from './_ui/early-typing-script'

/** Every page carries a fresh script nonce, the one for a wrong address too: none is made ahead. */
export const dynamic = 'force-dynamic'

export const metadata: Metadata = {
  title: { default: 'Bendwright', template: '%s · Bendwright' },
  description: 'Bent-tube parts on a shop press: from drawing to quote to a piece measured and released.',
  icons: { icon: '/icon.svg' },
  manifest: '/manifest.webmanifest',
  robots: { index: false, follow: false },
  formatDetection: { telephone: false },
}

export const viewport: Viewport = {
  width: 'device-width',
  initialScale: 1,
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#f8f4eb' },
    { media: '(prefers-color-scheme: dark)', color: '#0b1b2d' },
  ],
}

export default async function RootLayout({ children }: { children: ReactNode }) {
  const nonce = (await headers()).get('x-nonce') ?? undefined
  return (
    <html lang="en">
      <body>
        {/* Browsers hide the nonce from scripts, so what the page holds never equals what was sent. */}
        <script
          nonce={nonce}
          suppressHydrationWarning
          dangerouslySetInnerHTML={{ __html: earlyTypingScript }}
        />
        {children}
        <EarlyTypingGivenBack />
      </body>
    </html>
  )
}

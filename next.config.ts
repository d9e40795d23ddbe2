import type { NextConfig } from 'next'

/** A drawing of 25 MB is the largest file the shop may keep; the rest of the form travels with it. */
const uploadLimit = '26mb'

const nextConfig: NextConfig = {
  reactStrictMode: true,
  poweredByHeader: false,
  // The solver reads its wasm file from beside its own script: bundled, it would not find it.
  serverExternalPackages: ['highs'],
  agentRules: false,
  // Of the same sources the same build, on whatever machine: instances that serve one shop take each other's pages.
  generateBuildId: () => process.env.BENDWRIGHT_BUILD ?? null,
  // npm test checks the types of everything; whoever starts the shop need not wait for that again.
  typescript: { ignoreBuildErrors: true },
  experimental: {
    authInterrupts: true,
    serverActions: { bodySizeLimit: uploadLimit },
    // Every request passes proxy.ts, which would otherwise cut a body off at 10 MB.
    proxyClientMaxBodySize: uploadLimit,
  },
}

export default nextConfig

// Stands in for 'server-only' in tests, where there is no client bundle to keep a module out of.
export {}

import Link from 'next/link'

export default function Forbidden() {
  return (
    <main className="page">
      <h1>Not for your role</h1>
      <p>You are signed in, but your role may not open this. The owner can change what you may do.</p>
      <p>
        <Link href="/">Back to today</Link>
      </p>
    </main>
  )
}

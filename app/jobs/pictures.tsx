/** Pictures as small ones, each to be opened whole. */
export function Pictures({ files, of }: { files: readonly { id: number }[]; of: string }) {
  if (files.length === 0) return null
  return (
    <span className="pictures">
      {files.map(({ id }, index) => (
        <a key={id} href={`/files/${id}`} target="_blank" rel="noreferrer">
          {/* eslint-disable-next-line @next/next/no-img-element -- a file behind the sign-in, which no optimizer may fetch */}
          <img src={`/files/${id}`} alt={`Picture ${index + 1} of ${of}`} loading="lazy" />
        </a>
      ))}
    </span>
  )
}

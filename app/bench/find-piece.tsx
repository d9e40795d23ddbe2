'use client'

import { useRouter } from 'next/navigation'
import { useCallback, useEffect, useRef, useState, useSyncExternalStore } from 'react'
import { Button } from '@/app/_ui/button'
import { TextField } from '@/app/_ui/field'

/** Not in every browser yet, and not in TypeScript's. Source: W3C, Accelerated Shape Detection in Images. */
type Detector = { detect: (from: HTMLVideoElement) => Promise<{ rawValue: string }[]> }
type DetectorClass = new (options: { formats: string[] }) => Detector

const detectorClass = () => (globalThis as { BarcodeDetector?: DetectorClass }).BarcodeDetector

/** A camera is given to https and localhost only. */
const canScan = () => detectorClass() !== undefined && navigator.mediaDevices !== undefined

const neverChanges = () => () => {}
const lookEveryMs = 200

/** The way to a piece: its scanned code, or what is printed under it, typed. */
export function FindPiece({ typed, error }: { typed: string; error: string | undefined }) {
  const hasCamera = useSyncExternalStore(neverChanges, canScan, () => false)
  const [scanning, setScanning] = useState(false)
  const stopScanning = useCallback(() => setScanning(false), [])
  return (
    <div className="stack stack-tight">
      {hasCamera &&
        (scanning ? (
          <Scanner onEnd={stopScanning} />
        ) : (
          <Button kind="primary" big wide onClick={() => setScanning(true)}>
            Scan a code
          </Button>
        ))}
      <form action="/bench" className="bench-find">
        <TextField
          label="Or type what is printed under it"
          name="piece"
          defaultValue={typed}
          error={error}
          hint="J-0012/3: job and piece"
          autoComplete="off"
          autoCapitalize="characters"
          maxLength={200}
        />
        <Button type="submit" big>
          Go to the piece
        </Button>
      </form>
    </div>
  )
}

/** The camera's picture until it shows a code of this shop. */
function Scanner({ onEnd }: { onEnd: () => void }) {
  const router = useRouter()
  const video = useRef<HTMLVideoElement>(null)
  const [trouble, setTrouble] = useState('')
  useEffect(() => {
    let stream: MediaStream | null = null
    let timer: ReturnType<typeof setTimeout> | undefined
    let ended = false
    const look = async (detector: Detector, picture: HTMLVideoElement) => {
      const codes = await detector.detect(picture).catch(() => [])
      if (ended) return
      const address = codes.map(({ rawValue }) => benchAddress(rawValue)).find((one) => one !== null)
      if (address) {
        router.push(address)
        onEnd()
        return
      }
      if (codes.length > 0) setTrouble('This is not a code of a traveller or a label.')
      timer = setTimeout(() => void look(detector, picture), lookEveryMs)
    }
    const begin = async () => {
      const Detects = detectorClass()
      const picture = video.current
      if (!Detects || !picture) return
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } })
      if (ended) {
        for (const track of stream.getTracks()) track.stop()
        return
      }
      picture.srcObject = stream
      await picture.play()
      await look(new Detects({ formats: ['qr_code'] }), picture)
    }
    begin().catch(() =>
      setTrouble('The camera is not given to this page. Allow it in the browser, or type the name below.'),
    )
    return () => {
      ended = true
      clearTimeout(timer)
      for (const track of stream?.getTracks() ?? []) track.stop()
    }
  }, [router, onEnd])
  return (
    <div className="stack stack-tight">
      <video ref={video} className="bench-camera" muted playsInline aria-label="What the camera sees" />
      {trouble && <p role="status">{trouble}</p>}
      <Button big wide onClick={onEnd}>
        Stop scanning
      </Button>
    </div>
  )
}

/** Where a code of this shop leads here, under whatever name the shop's computer was reached when it was printed. */
export function benchAddress(scanned: string): string | null {
  const [, piece, job] = /\/(?:bench\/([\w-]{16,64})|jobs\/(\d{1,9}))$/.exec(scanned.trim()) ?? []
  if (piece) return `/bench/${piece}`
  return job ? `/jobs/${job}` : null
}

'use client'

import { useEffect, useRef } from 'react'
import {
  BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  Float32BufferAttribute,
  HemisphereLight,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshStandardMaterial,
  PerspectiveCamera,
  Scene,
  Sphere,
  Vector3,
  WebGLRenderer,
} from 'three'
import { OrbitControls } from 'three/addons/controls/OrbitControls.js'
import { type ModelTriangles, modelTriangles } from '@/lib/core/drawing/model-triangles'
import type { DrawnPart } from '@/lib/core/drawing/part'
import { views } from '@/lib/core/drawing/projection'

/** Draws the model only when something changed: a shop's tablet has better uses for its battery. */
export function Part3dCanvas({
  part,
  selectedBend,
  onBroken,
}: {
  part: DrawnPart
  selectedBend: number | null
  onBroken: () => void
}) {
  const hostRef = useRef<HTMLDivElement>(null)
  const brokenRef = useRef(onBroken)
  const directionRef = useRef(new Vector3(...views.isometric.toViewer))

  useEffect(() => {
    brokenRef.current = onBroken
  }, [onBroken])

  useEffect(() => {
    const host = hostRef.current
    if (!host) return
    let renderer: WebGLRenderer
    try {
      renderer = new WebGLRenderer({ antialias: true, alpha: true })
    } catch {
      brokenRef.current()
      return
    }
    const model = modelTriangles(part)
    const scene = new Scene()
    const colours = themeColours(host)
    const disposables = addModel(scene, model, selectedBend, colours)
    const sphere = new Sphere(new Vector3(...model.centre), model.radiusMm)
    const camera = new PerspectiveCamera(28, 1, sphere.radius / 50, sphere.radius * 40)
    const far = sphere.radius / Math.sin((camera.fov * Math.PI) / 360)
    camera.position.copy(sphere.center).addScaledVector(directionRef.current, far * 1.02)
    const controls = new OrbitControls(camera, renderer.domElement)
    controls.target.copy(sphere.center)
    controls.enablePan = false
    controls.minDistance = sphere.radius * 0.4
    controls.maxDistance = far * 2.5
    controls.update()
    const draw = () => renderer.render(scene, camera)
    const onTurn = () => {
      directionRef.current.copy(camera.position).sub(sphere.center).normalize()
      draw()
    }
    controls.addEventListener('change', onTurn)
    const fit = () => {
      const width = host.clientWidth
      const height = host.clientHeight
      if (width === 0 || height === 0) return
      renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2))
      renderer.setSize(width, height)
      camera.aspect = width / height
      camera.updateProjectionMatrix()
      draw()
    }
    const watcher = new ResizeObserver(fit)
    watcher.observe(host)
    renderer.domElement.addEventListener('webglcontextlost', brokenRef.current)
    host.append(renderer.domElement)
    fit()
    return () => {
      watcher.disconnect()
      controls.dispose()
      for (const thing of disposables) thing.dispose()
      renderer.dispose()
      renderer.domElement.remove()
    }
  }, [part, selectedBend])

  return <div className="part3d-canvas" ref={hostRef} />
}

function themeColours(host: HTMLElement): Record<'ink' | 'metal' | 'lit', Color> {
  const style = getComputedStyle(host)
  const read = (name: string) => new Color(style.getPropertyValue(name).trim())
  return { ink: read('--ink'), metal: read('--steel'), lit: read('--blue') }
}

function addModel(
  scene: Scene,
  model: ModelTriangles,
  selectedBend: number | null,
  colours: ReturnType<typeof themeColours>,
): { dispose: () => void }[] {
  const disposables: { dispose: () => void }[] = []
  for (const piece of model.pieces) {
    const lit = piece.bend !== null && piece.bend === selectedBend
    const geometry = new BufferGeometry()
    geometry.setAttribute('position', new Float32BufferAttribute(piece.positions, 3))
    geometry.setAttribute('normal', new Float32BufferAttribute(piece.normals, 3))
    const material = new MeshStandardMaterial({
      color: lit ? colours.lit : colours.metal,
      roughness: 0.55,
      metalness: 0.15,
      side: DoubleSide,
    })
    scene.add(new Mesh(geometry, material))
    disposables.push(geometry, material)
  }
  const edges = new BufferGeometry()
  edges.setAttribute('position', new Float32BufferAttribute(model.edges, 3))
  const pen = new LineBasicMaterial({ color: colours.ink })
  scene.add(new LineSegments(edges, pen))
  disposables.push(edges, pen)
  scene.add(new HemisphereLight('#ffffff', '#8a8678', 1.7))
  const sun = new DirectionalLight('#ffffff', 2.1)
  sun.position.set(-0.4, 1, 0.8)
  scene.add(sun)
  return disposables
}

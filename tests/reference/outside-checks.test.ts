import { describe } from 'vitest'
import { checksAreAsShown } from '@/tests/support/outside-check'
import { curveChecks, momentChecks, pressChecks, springbackChecks, wallChecks } from './mechanics'
import { costChecks, cuttingChecks, unitChecks } from './money'
import { quotingChecks } from './quoting'
import { sectionChecks } from './sections'
import { geometryChecks, templateChecks } from './shape'
import { judgingChecks, learningChecks } from './statistics'
import { materialChecks, temperChecks } from './stock'

describe('numbers from outside', () => {
  sectionChecks()
  curveChecks()
  momentChecks()
  pressChecks()
  springbackChecks()
  wallChecks()
  temperChecks()
  learningChecks()
  geometryChecks()
  templateChecks()
  materialChecks()
  judgingChecks()
  costChecks()
  quotingChecks()
  cuttingChecks()
  unitChecks()
  checksAreAsShown()
})

'use server'

import { materialForm, materialPress, newMaterialForm } from '@/lib/records/material/schema'
import { addMaterial, changeMaterial, removeMaterial } from '@/lib/records/material/write'
import { formAction } from '@/lib/server/action'

export const addMaterialAction = formAction('material.write', newMaterialForm, (input, actor) =>
  addMaterial(input, actor),
)
export const changeMaterialAction = formAction('material.write', materialForm, (input, actor) =>
  changeMaterial(input, actor),
)
export const removeMaterialAction = formAction('material.write', materialPress, (input, actor) =>
  removeMaterial(input, actor),
)

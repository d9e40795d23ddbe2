'use server'

import { fillerAlloyForm, fillerAlloyPress, newFillerAlloyForm } from '@/lib/records/filler-alloy/schema'
import { addFillerAlloy, changeFillerAlloy, removeFillerAlloy } from '@/lib/records/filler-alloy/write'
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

export const addFillerAlloyAction = formAction('material.write', newFillerAlloyForm, (input, actor) =>
  addFillerAlloy(input, actor),
)
export const changeFillerAlloyAction = formAction('material.write', fillerAlloyForm, (input, actor) =>
  changeFillerAlloy(input, actor),
)
export const removeFillerAlloyAction = formAction('material.write', fillerAlloyPress, (input, actor) =>
  removeFillerAlloy(input, actor),
)

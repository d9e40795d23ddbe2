'use server'

import { ratesForm } from '@/lib/records/rates/schema'
import { changeRates } from '@/lib/records/rates/write'
import { logoForm, logoPress, shopForm } from '@/lib/records/shop/schema'
import { changeLogo, changeShop, takeLogoOff } from '@/lib/records/shop/write'
import {
  dieForm,
  fillerEntryForm,
  fillerForm,
  newDieForm,
  newFillerForm,
  newPressForm,
  newStrapForm,
  pressForm,
  retireForm,
  strapForm,
} from '@/lib/records/tooling/schema'
import {
  addDie,
  addFiller,
  addPress,
  addStrap,
  changeDie,
  changeFiller,
  changePress,
  changeStrap,
  enterFillerMove,
  retireTool,
} from '@/lib/records/tooling/write'
import { formAction } from '@/lib/server/action'

export const changeShopAction = formAction('shop.write', shopForm, (input, actor) => changeShop(input, actor))
export const changeLogoAction = formAction('shop.write', logoForm, (input, actor) => changeLogo(input, actor))
export const takeLogoOffAction = formAction('shop.write', logoPress, (input, actor) =>
  takeLogoOff(input, actor),
)
export const changeRatesAction = formAction('shop.write', ratesForm, (input, actor) =>
  changeRates(input, actor),
)

export const addPressAction = formAction('tooling.write', newPressForm, (input, actor) =>
  addPress(input, actor),
)
export const changePressAction = formAction('tooling.write', pressForm, (input, actor) =>
  changePress(input, actor),
)
export const addDieAction = formAction('tooling.write', newDieForm, (input, actor) => addDie(input, actor))
export const changeDieAction = formAction('tooling.write', dieForm, (input, actor) => changeDie(input, actor))
export const addStrapAction = formAction('tooling.write', newStrapForm, (input, actor) =>
  addStrap(input, actor),
)
export const changeStrapAction = formAction('tooling.write', strapForm, (input, actor) =>
  changeStrap(input, actor),
)
export const addFillerAction = formAction('tooling.write', newFillerForm, (input, actor) =>
  addFiller(input, actor),
)
export const changeFillerAction = formAction('tooling.write', fillerForm, (input, actor) =>
  changeFiller(input, actor),
)
export const retireAction = formAction('tooling.write', retireForm, (input, actor) =>
  retireTool(input, actor),
)
export const moveFillerAction = formAction('filler.write', fillerEntryForm, (input, actor) =>
  enterFillerMove(input, actor),
)

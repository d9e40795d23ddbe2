/** The same frame for a page that has no layout of its own to export it from. */
export { default as ShopFrame } from './layout'

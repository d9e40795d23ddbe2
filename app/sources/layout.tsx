export { default } from '@/app/_shop/layout'

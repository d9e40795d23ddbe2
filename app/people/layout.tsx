export { default } from '@/app/shop/layout'

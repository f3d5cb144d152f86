export { ShopCard } from './ShopCard.tsx';

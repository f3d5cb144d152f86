export { MESH_COLUMNS } from './lists.ts';
export { ShopCard } from './ShopCard.tsx';

export { Studio } from './Studio.tsx';

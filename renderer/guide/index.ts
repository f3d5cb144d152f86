export { Guide, GuideButton } from './Guide.tsx';
export { GUIDE_AT } from './pages.ts';

import { createRoot } from 'react-dom/client';
import '@fontsource-variable/archivo/wdth.css';
import './look/ground.css';
import './look/bench.css';
import './look/board.css';
import './look/stations.css';
import './look/app.css';
import { Studio } from './app/index.ts';

const root = document.getElementById('studio');
if (!root) throw new Error('The page has no place for the studio.');
createRoot(root).render(<Studio />);

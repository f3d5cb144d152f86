/** Own small drawings, one stroke width, 20 × 20. */
const PATHS = {
  plus: 'M10 4v12M4 10h12',
  minus: 'M4 10h12',
  turn: 'M3 8c2-4 12-4 14 0M17 8l-1-4M17 8l-4-.6M17 12c-2 4-12 4-14 0',
  undo: 'M7 5 3 9l4 4M3 9h9c6 0 6 7 1 7',
  redo: 'M13 5l4 4-4 4M17 9H8c-6 0-6 7-1 7',
  up: 'M10 16V4M5 9l5-5 5 5',
  down: 'M10 4v12M5 11l5 5 5-5',
  bin: 'M4 6h12M8 6V4h4v2M6 6l1 10h6l1-10',
  copy: 'M7 7h9v9H7zM4 13V4h9',
  mirror: 'M10 3v14M7 6 3 14h4zM13 6l4 8h-4z',
  eye: 'M2.5 10c4-6 11-6 15 0-4 6-11 6-15 0zM10 8a2 2 0 100 4 2 2 0 000-4',
  shut: 'M2.5 9c4 5 11 5 15 0M5 12l-1.5 2.5M10 13v3M15 12l1.5 2.5',
  grip: 'M7 5v.01M13 5v.01M7 10v.01M13 10v.01M7 15v.01M13 15v.01',
  close: 'M5 5l10 10M15 5 5 15',
  open: 'M3 6h5l2 2h7v8H3z',
  save: 'M10 3v9M6 8.5l4 4 4-4M4 16h12',
  fresh: 'M5 3h7l3 3v11H5zM10 9v5M7.5 11.5h5',
  light:
    'M10 6a4 4 0 100 8 4 4 0 000-8M10 1.5v2M10 16.5v2M1.5 10h2M16.5 10h2M4 4l1.4 1.4M14.6 14.6 16 16M16 4l-1.4 1.4M5.4 14.6 4 16',
  dark: 'M12 3a7 7 0 105 11A8 8 0 0112 3z',
  flag: 'M5 18V3h10l-3 4 3 4H5',
  tick: 'M4 10.5l4 4 8-9',
  film: 'M3 4h14v12H3zM3 8h14M10 4v12',
  loupe: 'M8.5 3a5.5 5.5 0 100 11 5.5 5.5 0 000-11M12.6 12.6 17 17',
  words: 'M3 5c3-2 5-1 7 1 2-2 4-3 7-1v11c-3-2-5-1-7 1-2-2-4-3-7-1zM10 6v11',
  guide: 'M10 2v16M5 4h9l2.5 2.5L14 9H5zM15 11H7.5L5 13.2l2.5 2.3H15z',
  pick: 'M11 4l5 5M12.5 2.5l5 5-3 1-3-3zM11.5 6 5 12.5 4 16l3.5-1L14 8.5',
  lasso: 'M5 11C1 7 6 3 11 4s7 5 3 7-8 1-9-1 2-2 3 0-1 5-3 6',
  brush: 'M16.5 3.5 9 11M9 11c-2-.5-4 1-4 3s-1 2-2 2c2 2 7 1.5 7-2 0-1-.3-2-1-3z',
  lock: 'M5 9h10v8H5zM7 9V6.5a3 3 0 016 0V9M10 12v2',
  align: 'M10 3v14M4 6h12v3H4zM6 12h8v3H6z',
} as const;

export type IconName = keyof typeof PATHS;

export function Icon({ name }: { name: IconName }) {
  return (
    <svg className="icon" viewBox="0 0 20 20" width="18" height="18" aria-hidden="true" focusable="false">
      <path
        d={PATHS[name]}
        fill="none"
        stroke="currentColor"
        strokeWidth="1.7"
        strokeLinecap="round"
        strokeLinejoin="round"
      />
    </svg>
  );
}

export { Card, Measure } from './Card.tsx';
export { Choice, Pick, Toggle } from './Choice.tsx';
export { Icon, type IconName } from './Icon.tsx';
export { LengthField } from './LengthField.tsx';
export { NumberBox } from './NumberBox.tsx';
export { Picture } from './Picture.tsx';
export { Share } from './Share.tsx';
export { TextBox } from './TextBox.tsx';

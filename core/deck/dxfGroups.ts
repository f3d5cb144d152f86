/** One group of a DXF: what kind of value, and the value as it is written (DXF reference, "Group codes"). */
export interface DxfGroup {
  readonly code: number;
  readonly text: string;
}

/**
 * The groups of an ASCII DXF up to its end mark, or null when a line that should hold a group code holds none, or the end
 * mark is missing. Takes one step a group, whatever the text holds.
 */
export function dxfGroups(text: string): readonly DxfGroup[] | null {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
  const groups: DxfGroup[] = [];
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = (lines[i] as string).trim();
    if (!/^-?\d{1,4}$/.test(code)) return null;
    const group = { code: Number(code), text: (lines[i + 1] as string).trim() };
    if (group.code === 0 && group.text === 'EOF') return groups;
    groups.push(group);
  }
  return null;
}

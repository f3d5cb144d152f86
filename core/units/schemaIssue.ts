/** The part of a schema checker's finding that is said to a person. */
export interface SchemaIssue {
  readonly path: readonly PropertyKey[];
  readonly message: string;
}

/** `faces.bottom.inks[2].opacity` as a person would point at it. */
function placeOf(path: readonly PropertyKey[], whole: string): string {
  let text = '';
  for (const part of path)
    text += typeof part === 'number' ? `[${part}]` : `${text ? '.' : ''}${String(part).slice(0, 60)}`;
  return text || whole;
}

/**
 * Where a document from outside is wrong, and how: `tailLength is missing`, `holes.diameter: too small: expected number to
 * be >=3`. `whole` names the document where the finding is about all of it.
 */
export function issueText(issue: SchemaIssue | undefined, whole: string): string {
  if (!issue) return `${whole} is wrong`;
  const place = placeOf(issue.path, whole);
  if (/received undefined$/.test(issue.message)) return `${place} is missing`;
  const message = issue.message.replace(/^Invalid input: /, '').replace(/\.+$/, '');
  return `${place}: ${message.charAt(0).toLowerCase()}${message.slice(1, 200)}`;
}

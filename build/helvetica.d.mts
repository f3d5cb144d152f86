export function helveticaFile(): Promise<string>;

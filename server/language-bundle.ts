/** What the server needs of the language: a bundle of its own, loaded when it is first needed. */

export { analyse, openDocument, updateDocument, usedDocuments } from '../language/index.ts';
export { readEditorLevels } from '../language/levels/editor-settings.ts';
export { readWorkspaceFile } from '../language/levels/workspace-file.ts';
export { changeBetween } from '../language/semantics/changes.ts';
export { completions, definition, documentSymbols, fixes, hover } from '../language/services/index.ts';

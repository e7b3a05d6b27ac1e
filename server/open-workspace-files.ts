import { WORKSPACE_FILE } from '../language/levels/workspace-file-name.ts';
import type { ReadResult } from './access.ts';
import { changeDocument, type OpenDocuments, openDocumentIn, type TextChange } from './documents.ts';
import { keyOf } from './uris.ts';

/** Workspace files that the client has open: their newest text, saved or not, goes before what is on disk. */
export interface OpenWorkspaceFiles {
  /** The methods say whether the document is a workspace file; what is not is left alone. */
  open(uri: string, version: number, text: string): boolean;
  change(uri: string, version: number, changes: readonly TextChange[]): boolean;
  close(uri: string): boolean;
  /** The text of an open one. */
  read(key: string): ReadResult | undefined;
  /** The URI of an open one as the client spells it. */
  uriOf(key: string): string | undefined;
}

/** `onChange` is told the key of each that is opened, changed or closed. */
export function createOpenWorkspaceFiles(onChange: (key: string) => void): OpenWorkspaceFiles {
  const files: OpenDocuments = new Map();
  return {
    open: (uri, version, text) => {
      if (!isWorkspaceFile(uri)) return false;
      onChange(openDocumentIn(files, uri, version, text).key);
      return true;
    },
    change: (uri, version, changes) => {
      const file = files.get(keyOf(uri));
      if (file === undefined) return false;
      changeDocument(file, version, changes);
      onChange(file.key);
      return true;
    },
    close: (uri) => {
      const key = keyOf(uri);
      if (!files.delete(key)) return false;
      onChange(key);
      return true;
    },
    read: (key) => {
      const file = files.get(key);
      return file && { kind: 'text', text: file.lines.getText() };
    },
    uriOf: (key) => files.get(key)?.uri,
  };
}

const isWorkspaceFile = (uri: unknown): boolean => typeof uri === 'string' && keyOf(uri).endsWith(`/${WORKSPACE_FILE}`);

import path from 'node:path';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { URI } from 'vscode-uri';
import { analyse, openDocument, usedDocuments } from '../../language/index.ts';
import { readWorkspaceFile, type WorkspaceFile } from '../../language/levels/workspace-file.ts';
import { WORKSPACE_FILE } from '../../language/levels/workspace-file-name.ts';
import type { Analysis, Diagnostic, WorkspaceDocument } from '../../language/semantics/analysis.ts';
import { resolvePath } from '../../language/semantics/name-index.ts';
import type { DocumentSyntax } from '../../language/syntax/document.ts';
import { isInside, readRigFile } from '../files.ts';
import type { Inputs, Problem } from './inputs.ts';

/** A place in a file as editors count it: lines and columns from 1, columns in UTF-16 code units. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** A file that was read. */
export interface CheckedDocument {
  readonly uri: string;
  /** Path from the current folder, with `/`; the whole path where the file lies outside of it. */
  readonly name: string;
  readonly text: string;
  place(offset: number): Place;
}

export interface CheckedWorkspace {
  readonly analysis: Analysis;
  /** The files named, and those they use, by URI and in the order of their names. */
  readonly documents: ReadonlyMap<string, CheckedDocument>;
  /** URIs of the files that were named. */
  readonly named: ReadonlySet<string>;
  readonly problems: readonly Problem[];
  /** The workspace files that were read, with what is wrong in them. */
  readonly settings: readonly CheckedSettings[];
}

/** A `rigwright.json`; it binds the files below its folder. */
export interface CheckedSettings {
  readonly document: CheckedDocument;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Reads the named files and all that they use, and analyses them. What a file uses has to lie in the current folder or
 * below it or, for a file from elsewhere, in that file's own folder or below it. Each of these folders may hold a workspace
 * file that states levels.
 */
export async function loadWorkspace(inputs: Inputs, cwd: string): Promise<CheckedWorkspace> {
  const documents = new Map<string, WorkspaceDocument>();
  const checked: CheckedDocument[] = [];
  const named = new Set<string>();
  const problems = [...inputs.problems];
  const waiting: { readonly uri: string; readonly syntax: DocumentSyntax }[] = [];

  const take = async (uri: string, file: string): Promise<WorkspaceDocument> => {
    const name = displayName(file, cwd);
    const read = await readRigFile(file);
    if (read.kind !== 'text') {
      // A used file that is missing is the using file's error, and reported there.
      if (read.kind === 'unreadable' || named.has(uri)) problems.push({ input: name, message: read.reason });
      return { kind: read.kind };
    }
    const syntax = openDocument(read.text);
    checked.push(checkedDocument(uri, name, read.text));
    waiting.push({ uri, syntax });
    return { kind: 'text', syntax };
  };

  const roots = await workspaceRoots(inputs.files, cwd);
  for (const file of inputs.files) {
    const uri = uriOf(file);
    named.add(uri);
    documents.set(uri, await take(uri, file));
  }
  for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
    for (const uri of usedDocuments(next.uri, next.syntax)) {
      if (documents.has(uri)) continue;
      const file = filePath(uri);
      const inside = file !== undefined && (await isInsideAny(roots, file));
      documents.set(uri, inside ? await take(uri, file) : { kind: 'outside' });
    }
  }
  const settings = await readSettings(roots, cwd, problems);
  checked.sort((a, b) => (a.name < b.name ? -1 : 1));
  return {
    analysis: analyse({ documents, levels: settings.map(({ folder, file }) => ({ folder, levels: file.levels })) }),
    documents: new Map(checked.map((document) => [document.uri, document])),
    named,
    problems,
    settings: settings.map(({ document, file }) => ({ document, diagnostics: file.diagnostics })),
  };
}

interface FoundSettings {
  readonly folder: string;
  readonly document: CheckedDocument;
  readonly file: WorkspaceFile;
}

/** The workspace files of some folders; one that is there and cannot be read is a problem. */
async function readSettings(roots: readonly string[], cwd: string, problems: Problem[]): Promise<FoundSettings[]> {
  const found: FoundSettings[] = [];
  for (const root of roots) {
    const file = path.join(root, WORKSPACE_FILE);
    const name = displayName(file, cwd);
    const read = await readRigFile(file);
    if (read.kind === 'unreadable') problems.push({ input: name, message: read.reason });
    if (read.kind !== 'text') continue;
    const document = checkedDocument(uriOf(file), name, read.text);
    found.push({ folder: uriOf(root).replace(/\/$/, ''), document, file: readWorkspaceFile(read.text) });
  }
  return found;
}

async function workspaceRoots(files: readonly string[], cwd: string): Promise<string[]> {
  const roots = [cwd];
  for (const file of files) if (!(await isInsideAny(roots, file))) roots.push(path.dirname(file));
  return roots;
}

async function isInsideAny(roots: readonly string[], file: string): Promise<boolean> {
  for (const root of roots) if (await isInside(root, file)) return true;
  return false;
}

/** URI of an absolute path, spelt as the language spells the URIs of used files: a file has one, whoever names it. */
export function uriOf(file: string): string {
  return resolvePath('file:///', URI.file(file).path);
}

function filePath(uri: string): string | undefined {
  const { scheme, fsPath } = URI.parse(uri);
  return scheme === 'file' ? fsPath : undefined;
}

/** Path of a file as it is printed. */
export function displayName(file: string, cwd: string): string {
  const relative = path.relative(cwd, file);
  const outside = relative === '..' || relative.startsWith(`..${path.sep}`) || path.isAbsolute(relative);
  return (outside ? file : relative).replaceAll(path.sep, '/');
}

const BYTE_ORDER_MARK = 0xfeff;

export function checkedDocument(uri: string, name: string, text: string): CheckedDocument {
  const document = TextDocument.create(uri, 'rig', 0, text);
  const hidden = text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : 0; // editors do not count it as a column
  return {
    uri,
    name,
    text,
    place: (offset) => {
      const { line, character } = document.positionAt(offset);
      return { line: line + 1, column: Math.max(0, character - (line === 0 ? hidden : 0)) + 1 };
    },
  };
}

import { TextDocument } from 'vscode-languageserver-textdocument';
import type { FolderLevels, Levels } from '../language/levels/level.ts';
import type { WorkspaceFile } from '../language/levels/workspace-file.ts';
import { WORKSPACE_FILE } from '../language/levels/workspace-file-name.ts';
import type { Diagnostic } from '../language/semantics/analysis.ts';
import type { ReadResult } from './access.ts';
import type { Language } from './language.ts';

/** The levels of rules that are stated outside the documents: in the workspace file of each folder, and in settings. */
export interface LevelSources {
  /** Those of the folders, then those of the settings. The same object until one of them changes. */
  levels(): readonly FolderLevels[];
  /** False until the first answer of every source; one that does not answer counts as silent after a while. */
  isKnown(): boolean;
  /** A file was created, changed or deleted, on disk or in the client. */
  fileChanged(key: string): void;
  /** Workspace folders came or went. */
  foldersChanged(): void;
  /** The settings are others now: the value of `rigwright.levels`, or a promise of it. */
  settingsChanged(value: unknown): void;
}

export interface LevelSourcesOptions {
  readonly language: Language;
  readonly folders: () => readonly string[];
  readonly read: (key: string) => Promise<ReadResult>;
  /** The value of the setting `rigwright.levels`; undefined for a client that cannot be asked for it. */
  readonly askSetting?: () => Promise<unknown>;
  readonly onChange: () => void;
  /** Shows what is wrong in a workspace file; an empty list takes back what was shown. */
  readonly publish: (key: string, diagnostics: readonly Diagnostic[], lines: TextDocument) => void;
  /** Tells what is wrong in the settings. */
  readonly warn: (problem: string) => void;
}

/** A client that does not answer must not hold up the diagnostics for ever. */
const LONGEST_ANSWER_MS = 2000;

interface FolderFile {
  /** What was read last; undefined until the first read has ended. */
  readonly text?: string;
  readonly file?: WorkspaceFile;
  readonly isKnown: boolean;
}

const UNKNOWN: FolderFile = { isKnown: false };

export function createLevelSources(options: LevelSourcesOptions): LevelSources {
  const { language, folders, read, askSetting, onChange, publish, warn } = options;
  const { readWorkspaceFile, readEditorLevels } = language;
  const files = new Map<string, FolderFile>();
  /** The newest read of a folder's file, and of the setting; an older one that ends later is dropped. */
  const reads = new Map<string, symbol>();
  const SETTING = '';
  let setting: Levels = new Map();
  let isSettingKnown = askSetting === undefined;
  let known: readonly FolderLevels[] | undefined;

  const fileOf = (folder: string): string => `${folder.replace(/\/$/, '')}/${WORKSPACE_FILE}`;

  function changed(): void {
    known = undefined;
    onChange();
  }

  function look(folder: string): void {
    const ticket = Symbol(folder);
    reads.set(folder, ticket);
    files.set(folder, files.get(folder) ?? UNKNOWN);
    void read(fileOf(folder)).then((result) => {
      if (reads.get(folder) === ticket) take(folder, result.kind === 'text' ? result.text : undefined);
    });
  }

  function take(folder: string, text: string | undefined): void {
    const before = files.get(folder) ?? UNKNOWN;
    if (before.isKnown && before.text === text) return;
    const file = text === undefined ? undefined : readWorkspaceFile(text);
    files.set(folder, { isKnown: true, ...(text !== undefined && { text }), ...(file && { file }) });
    show(folder, before, file?.diagnostics ?? [], text ?? '');
    changed();
  }

  function show(folder: string, before: FolderFile, diagnostics: readonly Diagnostic[], text: string): void {
    if (diagnostics.length === 0 && (before.file?.diagnostics ?? []).length === 0) return;
    const key = fileOf(folder);
    publish(key, diagnostics, TextDocument.create(key, 'json', 0, text));
  }

  function ask(value: unknown): void {
    const ticket = Symbol(SETTING);
    reads.set(SETTING, ticket);
    void within(LONGEST_ANSWER_MS, Promise.resolve(value)).then((found) => {
      if (reads.get(SETTING) !== ticket) return;
      const { levels, problems } = readEditorLevels(found);
      for (const problem of problems) warn(problem);
      setting = levels;
      isSettingKnown = true;
      changed();
    });
  }

  function lookAtAll(): void {
    const wanted = new Set(folders());
    for (const [folder, before] of files) {
      if (wanted.has(folder)) continue;
      files.delete(folder);
      reads.delete(folder);
      show(folder, before, [], '');
    }
    for (const folder of wanted) look(folder);
  }

  lookAtAll();
  if (askSetting) ask(askSetting());
  return {
    levels: () => {
      known ??= [
        ...[...files].map(([folder, { file }]) => ({
          folder: folder.replace(/\/$/, ''),
          levels: file?.levels ?? new Map(),
        })),
        { folder: '', levels: setting },
      ];
      return known;
    },
    isKnown: () => isSettingKnown && [...files.values()].every(({ isKnown }) => isKnown),
    fileChanged: (key) => {
      for (const folder of files.keys()) if (fileOf(folder) === key) look(folder);
    },
    foldersChanged: () => {
      lookAtAll();
      changed();
    },
    settingsChanged: ask,
  };
}

/** The value, or undefined when it fails or does not come in time. */
function within(milliseconds: number, value: Promise<unknown>): Promise<unknown> {
  return new Promise((resolve) => {
    const giveUp = (): void => resolve(undefined);
    const timer = setTimeout(giveUp, milliseconds);
    value.then(resolve, giveUp).finally(() => clearTimeout(timer));
  });
}

/**
 * What the language server and its client say to each other beyond the Language Server Protocol: types only, shared by
 * both sides. URIs are strings as they stand in LSP messages.
 */

/** `initializationOptions` of the `initialize` request. A client that sends none offers nothing beyond LSP. */
export interface InitializationOptions {
  /** The client answers {@link ClientRequests}; needed wherever the server has no file system of its own. */
  readonly fileAccess?: boolean;
  /** URI of a folder in which the client opens the page of each code: `RW603.md`. Diagnostics then link to it. */
  readonly diagnosticPages?: string;
}

export interface ReadFileParams {
  readonly uri: string;
}

export interface ReadFileResult {
  /** The file as it is stored, decoded as UTF-8; unsaved edits are not in it. */
  readonly text: string;
}

/**
 * Requests from the server to the client, by method. They reach workspace folders only, on any file system that VS Code
 * knows. `null` means: outside the workspace, missing or unreadable.
 */
export interface ClientRequests {
  'rigwright/readFile': { readonly params: ReadFileParams; readonly result: ReadFileResult | null };
}

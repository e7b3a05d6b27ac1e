import type {
  CancellationToken,
  Connection,
  RequestType,
  ResponseError,
  ServerCapabilities,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../../language/semantics/analysis.ts';
import type { ClientFeatures } from '../client-features.ts';
import type { LinesOf, VersionOf } from '../convert.ts';
import type { PullAnswer } from '../diagnostics.ts';
import type { Language } from '../language.ts';

/** What a request is answered from: the newest version of the document it speaks of, and of all that it uses. */
export interface RequestContext {
  readonly language: Language;
  readonly analysis: Analysis;
  /** The document's key: its URI in the analysis. */
  readonly uri: string;
  readonly lines: TextDocument;
  readonly linesOf: LinesOf;
  /** Version of an open document by key; null for a file that is not open. */
  readonly versionOf: VersionOf;
  readonly features: ClientFeatures;
  readonly pullDiagnostics: (previous: string | undefined) => PullAnswer;
}

interface DocumentParams {
  readonly textDocument: { readonly uri: string };
}

export interface HandlerDefinition<P extends DocumentParams, R, E> {
  /** The request as the protocol library describes it. */
  readonly type: RequestType<P, R, E>;
  /** What the server says it can do because this handler exists. */
  readonly capabilities: (features: ClientFeatures) => ServerCapabilities;
  readonly answer: (context: RequestContext, params: P) => R;
  /** The answer for a document that is not open, and where the answer could not be found because of a fault. */
  readonly nothing: R;
}

/** Runs a handler: finds the document, waits for what it uses, and keeps faults from ending the server. */
export type Respond = <P extends DocumentParams, R, E>(
  definition: HandlerDefinition<P, R, E>,
  params: P,
  token: CancellationToken,
) => ResponseError<E> | Promise<R | ResponseError<E>>;

export interface Handler {
  readonly capabilities: (features: ClientFeatures) => ServerCapabilities;
  readonly listen: (connection: Connection, respond: Respond) => void;
}

export function defineHandler<P extends DocumentParams, R, E>(definition: HandlerDefinition<P, R, E>): Handler {
  return {
    capabilities: definition.capabilities,
    listen: (connection, respond) => {
      // By name: the types of parameters and result are those of the definition already.
      connection.onRequest<unknown, E>(definition.type.method, (params: P, token: CancellationToken) =>
        respond(definition, params, token),
      );
    },
  };
}

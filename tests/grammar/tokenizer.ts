import { readFileSync } from 'node:fs';
import { createRegistry } from 'vscode-tmgrammar-test/dist/common/index.js';

const GRAMMAR = 'client/syntaxes/rig.tmLanguage.json';
const SCOPE = 'source.rig';

export const registry = createRegistry([{ path: GRAMMAR, scopeName: SCOPE, injectTo: [], language: 'rig' }]);

export interface Token {
  readonly from: number;
  readonly to: number;
  readonly text: string;
  /** Outermost first. */
  readonly scopes: readonly string[];
}

/** Tokens of single lines as VS Code's own tokenizer cuts them; offsets in UTF-16 code units. */
export async function createTokenizer(): Promise<(line: string) => Token[]> {
  const grammar = await registry.loadGrammar(SCOPE);
  if (!grammar) throw new Error(`${GRAMMAR} does not load`);
  return (line) =>
    grammar.tokenizeLine(line, null).tokens.map(({ startIndex, endIndex, scopes }) => ({
      from: startIndex,
      to: endIndex,
      text: line.slice(startIndex, endIndex),
      scopes,
    }));
}

/** Words in the alternations of the grammar's declaration and word patterns. */
export function grammarWords(): string[] {
  const { repository } = JSON.parse(readFileSync(GRAMMAR, 'utf8'));
  const patterns: { match: string }[] = [...repository.declaration.patterns, ...repository.word.patterns];
  return patterns.flatMap(({ match }) => match.match(/\((?:\?:)?([A-Za-z_|]+)\)/)?.[1]?.split('|') ?? []);
}

import { readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import path from 'node:path';
import { globSync } from 'tinyglobby';
import { describe, expect, it } from 'vitest';

interface Import {
  readonly file: string;
  readonly line: number;
  readonly target: string;
  readonly typeOnly: boolean;
}

interface Room {
  /** Own folders, and files of others, that its files may import. */
  readonly paths: readonly RegExp[];
  /** Files of other rooms of which only types may be imported. */
  readonly types: readonly RegExp[];
  /** Packages; `node:` stands for Node's own modules. */
  readonly packages: readonly RegExp[];
}

/** Who may import what. A package that is not named here is allowed nowhere. */
const ROOMS: Readonly<Record<string, Room>> = {
  language: {
    paths: [/^\/language\//],
    types: [],
    packages: [/^chevrotain$/, /^fastest-levenshtein$/, /^jsonc-parser$/, /^ml-matrix$/, /^d3-scale$/, /^d3-shape$/],
  },
  server: {
    paths: [/^\/server\//, /^\/language\//, /^\/package\.json$/],
    types: [],
    packages: [
      /^node:/,
      /^vscode-languageserver(-textdocument|-protocol|-types)?(\/node)?$/,
      /^vscode-uri$/,
      /^fastest-levenshtein$/,
      /^commander$/,
      /^tinyglobby$/,
    ],
  },
  client: {
    paths: [/^\/client\//],
    types: [/^\/server\/protocol\.ts$/],
    packages: [/^vscode$/, /^vscode-languageclient\/node$/],
  },
};

/** Import and export statements and dynamic imports, with relative targets as paths from the root: `/server/protocol.ts`. */
function importsOf(file: string): Import[] {
  const text = readFileSync(file, 'utf8');
  const pattern =
    /^(?:import|export)\s+(type\s)?[^'"`;]*?from\s*'([^']+)'|^import\s*'([^']+)'|\b(?:import|require)\(\s*'([^']+)'\s*\)/gm;
  return [...text.matchAll(pattern)].map((match) => {
    const target = match[2] ?? match[3] ?? match[4] ?? '';
    return {
      file,
      line: text.slice(0, match.index).split('\n').length,
      target: target.startsWith('.') ? `/${path.posix.join(path.posix.dirname(file), target)}` : target,
      typeOnly: match[1] !== undefined,
    };
  });
}

const isPath = (target: string): boolean => target.startsWith('/');

/** Node's modules are recognised without their prefix too. */
const packageName = (target: string): string => (builtinModules.includes(target) ? `node:${target}` : target);

function isAllowed(room: Room, { target, typeOnly }: Import): boolean {
  if (!isPath(target)) return room.packages.some((allowed) => allowed.test(packageName(target)));
  return (
    room.paths.some((allowed) => allowed.test(target)) ||
    (typeOnly && room.types.some((allowed) => allowed.test(target)))
  );
}

describe('the layer rule', () => {
  it.each(Object.entries(ROOMS))('%s imports only what it may', (name, room) => {
    const files = globSync(`${name}/**/*.ts`);
    const imports = files.flatMap(importsOf);
    expect(files.length).toBeGreaterThan(0);
    expect(imports.length).toBeGreaterThan(0);
    const breaches = imports.filter((found) => !isAllowed(room, found));
    expect(breaches.map(({ file, line, target }) => `${file}:${line} imports ${target}`)).toEqual([]);
  });

  it('sees every form of import', () => {
    const room = ROOMS.language;
    expect(room).toBeDefined();
    if (!room) return;
    const from = (target: string): boolean =>
      isAllowed(room, { file: 'language/a.ts', line: 1, target, typeOnly: true });
    expect(['node:fs', 'fs', 'vscode', '/server/protocol.ts', '/../outside.ts', '/package.json'].filter(from)).toEqual(
      [],
    );
    expect(importsOf('tests/architecture/layers.test.ts').map(({ target }) => target)).toContain('node:module');
  });
});

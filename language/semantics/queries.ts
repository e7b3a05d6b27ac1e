import type { Finding } from '../diagnostics/finding.ts';
import type { Declaration } from '../syntax/tree.ts';
import type { Entity, Workspace } from './analysis.ts';
import { readDeclaration } from './declarations.ts';
import { reportDuplicates, reportUse } from './joined-files.ts';
import type { Assumption } from './model.ts';
import { indexOf, visibleDocuments } from './name-index.ts';
import type { Found, Scope } from './scope.ts';
import { reportSyntax } from './syntax-findings.ts';

/** What the evaluation of a declaration came to, and everything it asked to get there. */
export interface Evaluated {
  readonly uri: string;
  readonly entity?: Entity;
  readonly findings: readonly Finding[];
  readonly dependencies: readonly Dependency[];
}

/** A question asked and its answer then. The result holds as long as every answer is the same. */
export type Dependency =
  | { readonly kind: 'name'; readonly uri: string; readonly name: string; readonly answer: Declaration | undefined }
  | {
      readonly kind: 'all of name';
      readonly uri: string;
      readonly name: string;
      readonly answer: readonly Declaration[];
    }
  | { readonly kind: 'entity'; readonly found: Found; readonly answer: Evaluated | 'cycle' }
  | { readonly kind: 'names'; readonly uri: string; readonly answer: string }
  | { readonly kind: 'joined files'; readonly uri: string; readonly answer: string };

/** Results by declaration, handed on from one version to the next. */
export type Memory = WeakMap<Declaration, Evaluated>;

/** Answers questions about one version of the workspace; every declaration is evaluated at most once. */
export interface Queries {
  evaluate(found: Found): Evaluated;
  find(uri: string, name: string): Found | undefined;
  findAll(uri: string, name: string): readonly Found[];
  visibleNames(uri: string): readonly string[];
  /** Documents visible from one, its own first. */
  visible(uri: string): readonly string[];
}

/**
 * Evaluation on demand. A result of an earlier version is kept when its declaration is the same object and every
 * question it asked then has the same answer now; so an edit costs what depends on it.
 */
export function createQueries(workspace: Workspace, memory: Memory): Queries {
  const settled = new Map<Declaration, Evaluated>();
  const underWay = new Set<Declaration>();
  const visibleOf = new Map<string, readonly string[]>();
  const namesOf = new Map<string, readonly string[]>();

  const visible = (uri: string): readonly string[] => {
    let documents = visibleOf.get(uri);
    if (documents === undefined) {
      documents = visibleDocuments(workspace, uri);
      visibleOf.set(uri, documents);
    }
    return documents;
  };

  const find = (uri: string, name: string): Found | undefined => {
    for (const document of visible(uri)) {
      const text = workspace.documents.get(document);
      if (text?.kind !== 'text') continue;
      const placed = indexOf(document, text.syntax).byName.get(name)?.[0];
      if (placed !== undefined) return { uri: document, declaration: placed.declaration };
    }
    return undefined;
  };

  const findAll = (uri: string, name: string): readonly Found[] =>
    visible(uri).flatMap((document) => {
      const text = workspace.documents.get(document);
      if (text?.kind !== 'text') return [];
      return (indexOf(document, text.syntax).byName.get(name) ?? []).map(({ declaration }) => ({
        uri: document,
        declaration,
      }));
    });

  const visibleNames = (uri: string): readonly string[] => {
    let names = namesOf.get(uri);
    if (names === undefined) {
      names = visible(uri).flatMap((document) => {
        const text = workspace.documents.get(document);
        return text?.kind === 'text' ? [...indexOf(document, text.syntax).byName.keys()] : [];
      });
      namesOf.set(uri, names);
    }
    return names;
  };

  /** What a `use` line depends on: which documents it brings in, and whether they can be had. */
  const joinedFiles = (uri: string): string =>
    visible(uri)
      .map((document) => `${document} ${workspace.documents.get(document)?.kind ?? 'missing'}`)
      .join('\n');

  const holds = (dependency: Dependency): boolean => {
    switch (dependency.kind) {
      case 'name':
        return find(dependency.uri, dependency.name)?.declaration === dependency.answer;
      case 'all of name': {
        const now = findAll(dependency.uri, dependency.name);
        return (
          now.length === dependency.answer.length &&
          now.every(({ declaration }, index) => declaration === dependency.answer[index])
        );
      }
      case 'entity':
        return dependency.answer !== 'cycle' && evaluate(dependency.found) === dependency.answer;
      case 'names':
        return visibleNames(dependency.uri).join('\n') === dependency.answer;
      case 'joined files':
        return joinedFiles(dependency.uri) === dependency.answer;
    }
  };

  const evaluate = (found: Found): Evaluated => {
    const { declaration, uri } = found;
    const known = settled.get(declaration);
    if (known !== undefined) return known;
    const before = memory.get(declaration);
    underWay.add(declaration);
    const result =
      before !== undefined && before.uri === uri && before.dependencies.every(holds) ? before : compute(found);
    underWay.delete(declaration);
    settled.set(declaration, result);
    memory.set(declaration, result);
    return result;
  };

  const compute = ({ uri, declaration }: Found): Evaluated => {
    const dependencies: Dependency[] = [];
    const findings: Finding[] = [];
    const assumptions: Assumption[] = [];
    const scope: Scope = {
      uri,
      declaration,
      findings,
      assumptions,
      find: (from, name) => {
        const found = find(from, name);
        dependencies.push({ kind: 'name', uri: from, name, answer: found?.declaration });
        return found;
      },
      entityOf: (found) => {
        if (underWay.has(found.declaration)) {
          dependencies.push({ kind: 'entity', found, answer: 'cycle' });
          return 'cycle';
        }
        const answer = evaluate(found);
        dependencies.push({ kind: 'entity', found, answer });
        return answer.entity;
      },
      visibleNames: (from) => {
        const names = visibleNames(from);
        dependencies.push({ kind: 'names', uri: from, answer: names.join('\n') });
        return names;
      },
    };
    reportSyntax(declaration, scope);
    const { statement } = declaration;
    let entity: Entity | undefined;
    if (statement?.head.text === 'use') {
      dependencies.push({ kind: 'joined files', uri, answer: joinedFiles(uri) });
      entity = reportUse(statement, scope, workspace);
    } else if (statement !== undefined) {
      if (statement.name !== undefined) {
        const all = findAll(uri, statement.name.text);
        dependencies.push({
          kind: 'all of name',
          uri,
          name: statement.name.text,
          answer: all.map((same) => same.declaration),
        });
        reportDuplicates(statement, all, scope);
      }
      entity = readDeclaration(statement, scope);
    }
    return { uri, findings, dependencies, ...(entity ? { entity } : {}) };
  };

  return { evaluate, find, findAll, visibleNames, visible };
}

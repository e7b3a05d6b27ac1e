import type { Finding } from '../diagnostics/finding.ts';
import type { Declaration } from '../syntax/tree.ts';
import type { Entity, Workspace } from './analysis.ts';
import { readDeclaration } from './declarations.ts';
import { type FirstOfName, reportDuplicates, reportUse } from './joined-files.ts';
import type { Dependency, Evaluated, Memory } from './memory.ts';
import type { Assumption } from './model.ts';
import { indexOf, visibleDocuments } from './name-index.ts';
import type { Found, Scope } from './scope.ts';
import { reportSyntax } from './syntax-findings.ts';

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
 * Evaluation on demand. A result of an earlier version is kept when its declaration is the same object and either no
 * change can have reached it (it is not among the memory's doubtful ones), or every question it asked then has the same
 * answer now. So an edit costs what depends on it.
 */
export function createQueries(workspace: Workspace, memory: Memory): Queries {
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

  const declared = (uri: string, name: string): readonly Declaration[] => {
    const document = workspace.documents.get(uri);
    return document?.kind === 'text' ? indexOf(uri, document.syntax).named(name) : [];
  };

  const find = (uri: string, name: string): Found | undefined => {
    for (const document of visible(uri)) {
      const declaration = declared(document, name)[0];
      if (declaration !== undefined) return { uri: document, declaration };
    }
    return undefined;
  };

  const findAll = (uri: string, name: string): readonly Found[] =>
    visible(uri).flatMap((document) => declared(document, name).map((declaration) => ({ uri: document, declaration })));

  const firstOf = (uri: string, name: string): FirstOfName => {
    const first: { own?: Found; used?: Found } = {};
    for (const document of visible(uri)) {
      const declaration = declared(document, name)[0];
      if (declaration === undefined) continue;
      if (document === uri) first.own = { uri, declaration };
      else {
        first.used = { uri: document, declaration };
        break;
      }
    }
    return first;
  };

  const visibleNames = (uri: string): readonly string[] => {
    let names = namesOf.get(uri);
    if (names === undefined) {
      const lists = visible(uri).flatMap((document) => {
        const text = workspace.documents.get(document);
        return text?.kind === 'text' ? [indexOf(document, text.syntax).names] : [];
      });
      names = lists.length === 1 && lists[0] !== undefined ? lists[0] : lists.flat();
      namesOf.set(uri, names);
    }
    return names;
  };

  /** What a `use` line depends on: which documents it brings in, whether they can be had, and what each declares. */
  const joinedFiles = (uri: string): readonly string[] =>
    visible(uri).flatMap((document) => {
      const text = workspace.documents.get(document);
      const names = text?.kind === 'text' ? indexOf(document, text.syntax).names : [];
      return [`${document} ${text?.kind ?? 'missing'}`, ...names];
    });

  const holds = (dependency: Dependency): boolean => {
    switch (dependency.kind) {
      case 'name':
        return find(dependency.uri, dependency.name)?.declaration === dependency.answer;
      case 'first of name': {
        const { own, used } = firstOf(dependency.uri, dependency.name);
        return own?.declaration === dependency.answer[0] && used?.declaration === dependency.answer[1];
      }
      case 'entity':
        return dependency.answer !== 'cycle' && evaluate(dependency.found) === dependency.answer;
      case 'names':
        return sameList(visibleNames(dependency.uri), dependency.answer);
      case 'joined files':
        return sameList(joinedFiles(dependency.uri), dependency.answer);
    }
  };

  const evaluate = (found: Found): Evaluated => {
    const { declaration, uri } = found;
    const before = memory.resultOf(declaration);
    const kept = before !== undefined && before.uri === uri;
    if (kept && !memory.isDoubtful(declaration)) return before;
    underWay.add(declaration);
    const result = kept && before.dependencies.every(holds) ? before : compute(found);
    underWay.delete(declaration);
    memory.settle(declaration, result);
    return result;
  };

  const compute = ({ uri, declaration }: Found): Evaluated => {
    const dependencies: Dependency[] = [];
    const findings: Finding[] = [];
    const assumptions: Assumption[] = [];
    /** What has been asked for, by document and name: each is one dependency, however often it is asked. */
    const asked = new Map<string, Map<string, Found | undefined>>();
    const scope: Scope = {
      uri,
      declaration,
      findings,
      assumptions,
      find: (from, name) => {
        const known = asked.get(from) ?? new Map<string, Found | undefined>();
        if (known.has(name)) return known.get(name);
        const found = find(from, name);
        asked.set(from, known.set(name, found));
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
        dependencies.push({ kind: 'names', uri: from, answer: names });
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
        const first = firstOf(uri, statement.name.text);
        const answer = [first.own?.declaration, first.used?.declaration];
        dependencies.push({ kind: 'first of name', uri, name: statement.name.text, answer });
        reportDuplicates(statement, first, scope);
      }
      entity = readDeclaration(statement, scope);
    }
    return { uri, findings, dependencies, ...(entity ? { entity } : {}) };
  };

  return { evaluate, find, findAll, visibleNames, visible };
}

function sameList(a: readonly string[], b: readonly string[]): boolean {
  return a === b || (a.length === b.length && a.every((entry, index) => entry === b[index]));
}

import { CATALOGUE } from '../diagnostics/catalogue.ts';
import type { Location, Severity } from '../diagnostics/finding.ts';
import { applyLevels, type LevelledFinding, levelsByCode, levelsOutside } from '../levels/apply.ts';
import { indexAt, LONGEST_DOCUMENT, type PlacedDeclaration } from '../syntax/document.ts';
import type { Declaration } from '../syntax/tree.ts';
import { formatNumber } from '../units/display.ts';
import type {
  AbsoluteLocation,
  Analysis,
  Diagnostic,
  PlacedEntity,
  PlacedName,
  TurnedOff,
  Workspace,
} from './analysis.ts';
import { MOST_DIAGNOSTICS } from './analysis.ts';
import { blockLevels, fileLevels } from './file-levels.ts';
import { foundLaterIn, lookFurther } from './find-later.ts';
import { createMemory, type Memory, pinMemory } from './memory.ts';
import { indexOf } from './name-index.ts';
import { createQueries } from './queries.ts';

/** The results each analysis hands on to the next, and the version it stands for; kept out of its interface. */
const memories = new WeakMap<Analysis, { readonly memory: Memory; readonly version: number }>();

/** Declarations in which something was found later, now or in an earlier result. */
const foundLater = new WeakSet<Declaration>();

const HEADS: ReadonlySet<string> = new Set(['rig', 'vehicle', 'trailer', 'variant']);

/** Whether there is more to find in a declaration than its evaluation does. */
const hasLater = ({ statement }: Declaration): boolean => HEADS.has(statement?.head.text ?? '');

const MOST_SCANS = 20;

/** The memory of the previous analysis, if nothing has been built on that one yet; else an empty one. */
function takeOver(workspace: Workspace, previous: Analysis | undefined): Memory {
  const known = previous && memories.get(previous);
  if (previous === undefined || known === undefined || known.memory.version() !== known.version) return createMemory();
  known.memory.advance(previous.workspace, workspace);
  return known.memory;
}

/**
 * Analyses a workspace. With the analysis of an earlier version, results are kept for every declaration that is the same
 * and reads the same; without one everything is computed anew. Both give equal results.
 */
export function analyse(workspace: Workspace, previous?: Analysis): Analysis {
  const shared = takeOver(workspace, previous);
  const memory = pinMemory(shared);
  const queries = createQueries(workspace, memory);
  const diagnostics = new Map<string, Collected>();
  /** How many declarations of a document have been looked at again. */
  const settledUpTo = new Map<string, number>();
  const starts = new Map<string, ReadonlyMap<Declaration, number>>();

  const declarationsOf = (uri: string): readonly PlacedDeclaration[] => {
    const document = workspace.documents.get(uri);
    return document?.kind === 'text' ? document.syntax.declarations : [];
  };

  const entity = (uri: string, { declaration, start }: PlacedDeclaration): PlacedEntity => {
    const evaluated = queries.evaluate({ uri, declaration });
    return { declaration, start, ...(evaluated.entity ? { entity: evaluated.entity } : {}) };
  };

  const startsOf = (uri: string): ReadonlyMap<Declaration, number> => {
    let known = starts.get(uri);
    if (known === undefined) {
      known = new Map(declarationsOf(uri).map(({ declaration, start }) => [declaration, start]));
      starts.set(uri, known);
    }
    return known;
  };

  /** Those of some declarations that are in a document, in text order. */
  const placesOf = (uri: string, declarations: Iterable<Declaration>): readonly PlacedDeclaration[] => {
    const places = startsOf(uri);
    return [...declarations]
      .flatMap((declaration) => {
        const start = places.get(declaration);
        return start === undefined ? [] : [{ declaration, start }];
      })
      .sort((a, b) => a.start - b.start);
  };

  /** A few look-ups are cheaper by a scan than by a map of the whole document. */
  let scans = 0;
  const startOf = (uri: string, declaration: Declaration): number | undefined =>
    starts.has(uri) || ++scans > MOST_SCANS
      ? startsOf(uri).get(declaration)
      : declarationsOf(uri).find((placed) => placed.declaration === declaration)?.start;

  const absolute = ({ declaration, span }: Location): AbsoluteLocation | undefined => {
    const home = memory.resultOf(declaration)?.uri;
    for (const uri of home === undefined ? workspace.documents.keys() : [home, ...workspace.documents.keys()]) {
      const start = startOf(uri, declaration);
      if (start !== undefined) return { uri, start: start + span.start, end: start + span.end };
    }
    return undefined;
  };

  const place = (finding: LevelledFinding, start: number): Diagnostic => ({
    key: finding.key,
    code: finding.code,
    severity: finding.severity,
    message: finding.message,
    start: start + finding.location.span.start,
    end: start + finding.location.span.end,
    related: finding.related.flatMap(({ location, message }) => {
      const where = absolute(location);
      return where === undefined ? [] : [{ ...where, message }];
    }),
    ...(finding.replacement === undefined ? {} : { replacement: finding.replacement }),
    ...(finding.level ? { level: finding.level } : {}),
  });

  const ofFile = (uri: string) =>
    fileLevels(declarationsOf(uri), (declaration) => queries.evaluate({ uri, declaration }).entity);

  const collect = (uri: string): Collected => {
    const document = workspace.documents.get(uri);
    if (document?.kind !== 'text') return NOTHING;
    if (document.syntax.tooLong) return { shown: [tooLong(document.syntax.text)], off: [] };
    const all: PlacedFinding[] = [];
    const off: TurnedOff[] = [];
    const { syntax } = document;
    const own = ofFile(uri);
    const outside = levelsOutside(uri, workspace.levels ?? []);
    const fresh = !memory.isComplete(syntax);
    for (const { declaration, start } of syntax.declarations) {
      if (fresh || memory.isDoubtful(declaration)) queries.evaluate({ uri, declaration });
      const twice = own.twice.get(declaration) ?? [];
      const isQuiet = !memory.hasFindings(declaration) && twice.length === 0;
      if (isQuiet && !foundLater.has(declaration)) continue;
      const evaluated = queries.evaluate({ uri, declaration });
      const findings = [...evaluated.findings, ...(foundLaterIn(evaluated) ?? []), ...twice];
      findings.sort((a, b) => a.location.span.start - b.location.span.start);
      const levels = [blockLevels(evaluated.entity), own.levels, ...outside];
      const levelled = applyLevels(findings, levels);
      for (const finding of levelled.shown) all.push({ finding, start });
      for (const { level, ...finding } of levelled.off) {
        off.push({ diagnostic: place(finding, start), level, declaration });
      }
    }
    memory.markComplete(syntax);
    const shown = mostSevere(all, MOST_DIAGNOSTICS).map(({ finding, start }) => place(finding, start));
    const rest = all.length - shown.length;
    return { shown: rest > 0 ? [...shown, moreDiagnostics(rest, syntax.text)] : shown, off };
  };

  const collected = (uri: string): Collected => {
    let known = diagnostics.get(uri);
    if (known === undefined) {
      known = collect(uri);
      diagnostics.set(uri, known);
    }
    return known;
  };

  const analysis: Analysis = {
    workspace,
    absolute,
    diagnostics: (uri) => collected(uri).shown,
    turnedOff: (uri) => collected(uri).off,
    levels: (uri, declaration) => {
      const { entity } = queries.evaluate({ uri, declaration });
      const all = [blockLevels(entity), ofFile(uri).levels, ...levelsOutside(uri, workspace.levels ?? [])];
      return levelsByCode(all.flatMap((levels) => [...levels.values()]));
    },
    settleNext: (uri) => {
      const declarations = declarationsOf(uri);
      for (let at = settledUpTo.get(uri) ?? 0; at < declarations.length; at++) {
        const declaration = declarations[at]?.declaration;
        if (declaration === undefined || !hasLater(declaration)) continue;
        const evaluated = queries.evaluate({ uri, declaration });
        if (foundLaterIn(evaluated) !== undefined) continue;
        const found = lookFurther(evaluated, declaration);
        if (found === undefined) return true;
        if (found.length > 0) foundLater.add(declaration);
        settledUpTo.set(uri, at + 1);
        diagnostics.delete(uri);
        return true;
      }
      settledUpTo.set(uri, declarations.length);
      return false;
    },
    entities: (uri) => declarationsOf(uri).map((placed) => entity(uri, placed)),
    entityAt: (uri, offset) => {
      const declarations = declarationsOf(uri);
      const placed = declarations[indexAt(declarations, offset)];
      return placed && placed.start <= offset ? entity(uri, placed) : undefined;
    },
    lookup: (uri, name) =>
      queries.findAll(uri, name).map(
        (found): PlacedName => ({
          name,
          uri: found.uri,
          declaration: found.declaration,
          start: startsOf(found.uri).get(found.declaration) ?? 0,
        }),
      ),
    users: (name) => {
      const askers = memory.askersOf(name);
      return [...workspace.documents].flatMap(([uri, document]) => {
        if (document.kind !== 'text') return [];
        const { syntax } = document;
        const places = memory.isComplete(syntax) ? placesOf(uri, askers) : syntax.declarations;
        return places.flatMap(({ declaration, start }): PlacedName[] => {
          const own = declaration.statement?.name?.text;
          return own === undefined ? [] : [{ name: own, uri, declaration, start }];
        });
      });
    },
    names: (uri) =>
      queries.visible(uri).flatMap((document) => {
        const text = workspace.documents.get(document);
        if (text?.kind !== 'text') return [];
        const index = indexOf(document, text.syntax);
        const places = startsOf(document);
        return [...index.names].flatMap((name) =>
          index
            .named(name)
            .map(
              (declaration): PlacedName => ({ name, uri: document, declaration, start: places.get(declaration) ?? 0 }),
            ),
        );
      }),
  };
  memories.set(analysis, { memory: shared, version: memory.version() });
  return analysis;
}

/** All diagnostics of a document, those of stability included, for a caller that can wait for them. */
export function completeDiagnostics(analysis: Analysis, uri: string): readonly Diagnostic[] {
  while (analysis.settleNext(uri));
  return analysis.diagnostics(uri);
}

/** What was found in a document. */
interface Collected {
  readonly shown: readonly Diagnostic[];
  readonly off: readonly TurnedOff[];
}

const NOTHING: Collected = { shown: [], off: [] };

interface PlacedFinding {
  readonly finding: LevelledFinding;
  /** Start of its declaration in the document. */
  readonly start: number;
}

const SEVERITY_ORDER: readonly Severity[] = ['error', 'warning', 'information'];

/** Of more findings than may be shown the most severe ones, in the order they had. */
function mostSevere(findings: readonly PlacedFinding[], most: number): readonly PlacedFinding[] {
  if (findings.length <= most) return findings;
  const kept = new Set<PlacedFinding>();
  for (const severity of SEVERITY_ORDER) {
    for (const placed of findings) {
      if (kept.size >= most) break;
      if (placed.finding.severity === severity) kept.add(placed);
    }
  }
  return findings.filter((placed) => kept.has(placed));
}

function tooLong(text: string): Diagnostic {
  const definition = CATALOGUE['file-too-long'];
  const message = definition.message({ length: formatNumber(text.length), most: formatNumber(LONGEST_DOCUMENT) });
  const end = text.indexOf('\n');
  return {
    key: 'file-too-long',
    code: definition.code,
    severity: definition.severity,
    message,
    start: 0,
    end: Math.max(0, end),
    related: [],
  };
}

function moreDiagnostics(count: number, text: string): Diagnostic {
  const definition = CATALOGUE['more-diagnostics'];
  const message = definition.message({ count, most: MOST_DIAGNOSTICS });
  return {
    key: 'more-diagnostics',
    code: definition.code,
    severity: definition.severity,
    message,
    start: text.length,
    end: text.length,
    related: [],
  };
}

import { analyse, type Diagnostic, openDocument, type WorkspaceDocument } from '../../../language/index.ts';
import { canonicalHead } from '../../../language/services/statements.ts';
import { type Context, STATEMENTS } from '../../../language/syntax/vocabulary.ts';

/** Files around the lines that the reference shows: an invented yard in which every name of the examples is known. */

const CATALOGUE = `fluid brine 1.15 kg/L
material sandwich_30 6.4 kg/m²
material channel_100 8.6 kg/m
item awning 38 kg size 2600 x 160 x 160 mm
item gas_bottle 17.5 kg size 310 x 310 x 580 mm
`;

const VEHICLE = [
  'wheelbase 3200 mm, track 1680 mm',
  'kerb 2120 kg at 1420 mm back, 680 mm up, inertia 4200 kg·m²',
  'seat driver 80 kg at 1350 mm back, 380 mm left, 700 mm up',
  'hitch ball at 1150 mm behind rear, 430 mm up',
];

const TRAILER = [
  'body from 880 mm to 5680 mm back, width 2040 mm, from 420 mm to 2550 mm up',
  'coupling ball 50 mm, 430 mm up',
  'axles tandem at 3420 mm back, spacing 820 mm, track 1860 mm, equalised',
  'tare 1385 kg at 3150 mm back, 720 mm up, inertia 3100 kg·m²',
  'brakes electric',
  'tank fresh 95 L of water at 3200 mm back, 410 mm up, size 900 x 450 x 240 mm',
  'tank waste 70 L of water at 3500 mm back, 380 mm up',
  'locker bed from 2400 mm to 4000 mm back, floor 500 mm up',
  'fitting fridge 31 kg at 3000 mm back, 780 mm up',
  'growth 3 %',
];

const RIG = ['tow YardTruck with driver', 'haul Hauler', 'stow awning in Hauler.bed', 'case loaded { }'];

/** The trailer of the vocabulary's own example, which the other examples of declarations name. */
const EXAMPLE_TRAILER = STATEMENTS.find(({ keyword }) => keyword === 'trailer')?.example ?? '';

/** A context in which lines of statements stand, with what it needs around it. */
const FRAMES: Readonly<Record<Context, (lines: string) => string>> = {
  file: (lines) => [...without(lines, [vehicle(), EXAMPLE_TRAILER]), lines].join('\n'),
  vehicle: (lines) => [vehicle(lines), trailer()].join('\n'),
  trailer: (lines) => [vehicle(), trailer(lines)].join('\n'),
  group: (lines) => trailer(block('group things at 3000 mm back, 500 mm up', lines)),
  axles: (lines) => trailer(block('axles tandem at 3420 mm back, spacing 820 mm, track 1860 mm, equalised', lines)),
  limits: (lines) => {
    const own = /^(GVM|GCM|GVWR|GCWR|OCCC)/.test(lines) ? 'vehicle' : 'trailer';
    return own === 'vehicle' ? vehicle(block('limits', lines)) : trailer(block('limits', lines));
  },
  variant: (lines) => [trailer(), block('variant Other of Hauler', lines)].join('\n'),
  rig: (lines) => [vehicle(), trailer(), rig(lines)].join('\n'),
  case: (lines) => [vehicle(), trailer(), rig(block('case other', lines))].join('\n'),
  reachable: (lines) => [vehicle(), trailer(), rig(block('reachable', lines))].join('\n'),
  weighing: (lines) => [vehicle(), trailer(), rig(block('weighing other', `total 4 t\n${lines}`))].join('\n'),
  pass: (lines) => [vehicle(), trailer(), rig(block('weighing other', block('solo Hauler', lines)))].join('\n'),
};

const vehicle = (lines = '') => unit('vehicle YardTruck', VEHICLE, lines);
const trailer = (lines = '') => unit('trailer Hauler', TRAILER, lines);
const rig = (lines: string) => unit('rig Example', RIG, lines);

/** A block in which the lines replace those of the same head, and of the same name where they have one. */
function unit(head: string, own: readonly string[], lines: string): string {
  return block(head, [...without(lines, own), lines].join('\n'));
}

const block = (head: string, lines: string) => `${head} {\n${lines}\n}`;

/** Statements without those that one of the lines says anew: what may stand once, or has the same name. */
function without(lines: string, own: readonly string[]): string[] {
  const replaced = new Set(lines.split('\n').map(identity));
  return own.filter((statement) => !replaced.has(identity(statement)));
}

const NAMED = /^(?:vehicle|trailer|item|fluid|material|seat|tank|locker|fitting|case) /;

function identity(statement: string): string {
  const [head = '', name = ''] = statement.trim().split(/\s+/);
  return NAMED.test(statement.trim()) ? `${head} ${name}` : canonicalHead(head);
}

const MAIN = 'file:///yard/main.rig';

/** Diagnostics of lines in their context. A whole file with declarations of its own needs no frame. */
export function frameDiagnostics(lines: string, context: Context): readonly Diagnostic[] {
  const framed = FRAMES[context](lines);
  return diagnosticsOf(`${without(lines, CATALOGUE.trimEnd().split('\n')).join('\n')}\n${framed}\n`);
}

/** Diagnostics of a whole file, beside which a file `items.rig` stands. */
export function diagnosticsOf(text: string): readonly Diagnostic[] {
  const documents = new Map<string, WorkspaceDocument>([
    [MAIN, { kind: 'text', syntax: openDocument(text) }],
    ['file:///yard/items.rig', { kind: 'text', syntax: openDocument('item spare_wheel 19 kg\n') }],
  ]);
  return analyse({ documents }).diagnostics(MAIN);
}

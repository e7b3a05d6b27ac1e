import { describe, expect, it } from 'vitest';
import { type Analysis, analyse, editDocument, openDocument, type Workspace } from '../../../language/index.ts';
import { MAIN, trailer, uriOf, vehicle, workspaceOf } from './support.ts';

const TEXT = `use "items.rig"
${vehicle()}${trailer('case full { stow rope in Hauler at 1 m back, 1 m up }')}
variant Long of Hauler { }
rig First { tow Truck\n haul Hauler\n stow box in Hauler at 1 m back, 1 m up }
rig Second { tow Truck\n haul Long }
`;
const ITEMS = 'item box 30 kg\nitem rope 2 kg\n';
const DOCUMENTS = [MAIN, uriOf('items.rig')];

const usersOf = (analysis: Analysis, name: string) => analysis.users(name).map((user) => user.name);

/** An analysis whose documents have all been evaluated. */
function evaluated(workspace: Workspace, previous?: Analysis): Analysis {
  const analysis = analyse(workspace, previous);
  for (const uri of DOCUMENTS) analysis.diagnostics(uri);
  return analysis;
}

describe('declarations that use a name', () => {
  const workspace = workspaceOf({ 'main.rig': TEXT, 'items.rig': ITEMS });
  it('are those that asked for it, each with its place', () => {
    const analysis = evaluated(workspace);
    expect(usersOf(analysis, 'Long')).toEqual(['Long', 'Second']);
    expect(usersOf(analysis, 'box')).toEqual(['First', 'box']);
    expect(usersOf(analysis, 'rope')).toContain('Hauler');
    expect(usersOf(analysis, 'nothing')).toEqual([]);
    const [user] = analysis.users('Second');
    expect(TEXT.slice(user?.start)).toMatch(/^rig Second/);
  });
  it('of a document that has not been evaluated are all that it declares', () => {
    expect(usersOf(analyse(workspace), 'box')).toEqual(['Truck', 'Hauler', 'Long', 'First', 'Second', 'box', 'rope']);
  });
  it('after an edit hold those that do now, before and after they have been evaluated', () => {
    const analysis = evaluated(workspace);
    const start = TEXT.indexOf('haul Long') + 'haul '.length;
    const before = workspace.documents.get(MAIN);
    if (before?.kind !== 'text') throw new Error('no text');
    const syntax = editDocument(before.syntax, { start, end: start + 'Long'.length, text: 'Hauler' });
    const edited: Workspace = { documents: new Map([...workspace.documents, [MAIN, { kind: 'text', syntax }]]) };
    const next = analyse(edited, analysis);
    expect(usersOf(next, 'Hauler')).toEqual(expect.arrayContaining(['First', 'Second']));
    for (const uri of DOCUMENTS) next.diagnostics(uri);
    expect(usersOf(next, 'Hauler')).toEqual(['Hauler', 'Long', 'First', 'Second']);
    expect(usersOf(next, 'Long')).toEqual(['Long']);
    // The version before stays as it was: it no longer knows who asked, so every declaration may have.
    expect(usersOf(analysis, 'Long')).toContain('Second');
    expect(openDocument(syntax.text).text).toContain('haul Hauler }');
  });
});

import { describe, expect, it } from 'vitest';
import { openDocument } from '../../../language/index.ts';
import { conflictEnd, conflictLineAt, cut } from '../../../language/syntax/cut.ts';

/** The pieces of a text. */
function pieces(text: string): readonly string[] {
  const { starts } = cut(text);
  return starts.map((start, index) => text.slice(start, starts[index + 1]));
}

describe('cut', () => {
  it('starts a piece at each declaration, with the ## lines directly above', () => {
    const parts = ['# Head\n', 'item a 3 kg\n\n', '## Doc\n## more\nitem b 4 kg\n# plain\n', 'let c = 3\n'];
    expect(pieces(parts.join(''))).toEqual(parts);
  });

  it('keeps ## lines at the top, behind a byte-order mark too, with the first declaration', () => {
    expect(pieces('## Doc\nitem a 3 kg\n')).toEqual(['## Doc\nitem a 3 kg\n']);
    expect(pieces('\uFEFF## Doc\nitem a 3 kg\nitem b 3 kg')).toEqual(['\uFEFF## Doc\nitem a 3 kg\n', 'item b 3 kg']);
  });

  it('## lines parted by an empty or plain comment line belong to the piece before', () => {
    expect(pieces('item a 3 kg\n## far\n\nitem b 3 kg')).toEqual(['item a 3 kg\n## far\n\n', 'item b 3 kg']);
    expect(pieces('item a 3 kg\n## far\n# near\nitem b 3 kg')).toEqual([
      'item a 3 kg\n## far\n# near\n',
      'item b 3 kg',
    ]);
  });

  it('counts no braces in texts and comments', () => {
    const parts = [
      'trailer T { # {{\n  tank a "{{" 3 L }\n',
      '  item b 3 kg\n',
      'item c "}" 3 kg\n',
      'item d "{ 3 kg\n',
      'item e 3 kg',
    ];
    expect(pieces(parts.join(''))).toEqual(parts);
  });

  it('a declaration keyword in the first column ends an open block; indented ones and let do not', () => {
    const parts = ['trailer T {\n  item x 3 kg\nlet y = 3\n', 'item b 3 kg\n'];
    expect(pieces(parts.join(''))).toEqual(parts);
  });

  it('a declaration keyword stands alone before a name or a text', () => {
    expect(pieces('rig R {\ncase c {\nrig 50 %\nitem.x 3\nitems 4\nuse= 3\n}\n}')).toHaveLength(1);
    expect(pieces('rig R {\nrig S {\n')).toHaveLength(2);
    expect(pieces('rig R {\nuse "x"\n')).toHaveLength(2);
    expect(pieces('rig R {\nitem état 3 kg\n')).toHaveLength(2);
  });

  it('CRLF cuts like LF', () => {
    const text = '## Doc\nitem a 3 kg\n\ntrailer T {\n  brakes air\n}\n## B\nitem b 3 kg\n';
    expect(pieces(text.replaceAll('\n', '\r\n'))).toEqual(pieces(text).map((part) => part.replaceAll('\n', '\r\n')));
  });

  it('covers any text without gap or overlap', () => {
    for (const text of ['', '\n', '}}}\n{', '"', '##', 'item', 'item a', '\r\nitem b\r', '<<<<<<<', '\0item a 3'])
      expect(pieces(text).join('')).toBe(text);
  });
});

describe('conflict markers', () => {
  it('are seven like signs at the start of a line, alone or before a space', () => {
    expect(conflictLineAt('<<<<<<< ours', 0)).toBe('ours');
    expect(conflictLineAt('||||||| base\n', 0)).toBe('base');
    expect(conflictLineAt('=======\r\n', 0)).toBe('theirs');
    expect(conflictLineAt('>>>>>>>', 0)).toBe('end');
    expect(conflictLineAt('<<<<<<<<', 0)).toBeUndefined();
    expect(conflictLineAt('======', 0)).toBeUndefined();
    expect(conflictLineAt('=======x', 0)).toBeUndefined();
  });

  it('the second side is passed over up to its closing line; without one only the marker line', () => {
    const text = '=======\nitem b 3 kg\n>>>>>>> theirs\nitem c 3 kg';
    expect(text.slice(conflictEnd(text, 0))).toBe('item c 3 kg');
    expect(conflictEnd('=======\nitem b 3 kg', 0)).toBe(8);
  });

  it('around declarations: the first side is read, every marker is a problem', () => {
    const text =
      '<<<<<<< ours\nitem a 3 kg\n||||||| base\nitem a 2 kg\n=======\nitem a 4 kg\nitem b 4 kg\n>>>>>>> theirs\nitem c 5 kg\n';
    const { declarations, conflict } = openDocument(text);
    expect(conflict).toBe(true);
    const names = declarations.flatMap(({ declaration }) => declaration.statement?.name?.text ?? []);
    expect(names).toEqual(['a', 'c']);
    const marked = declarations.flatMap(({ declaration }) =>
      declaration.problems.filter(({ kind }) => kind === 'conflict').map(({ found }) => found),
    );
    expect(marked).toEqual(['<<<<<<<', '|||||||', '=======', '>>>>>>>']);
  });

  it('inside a block: the block stays whole', () => {
    const text =
      'trailer T {\n  brakes air\n<<<<<<< ours\n  growth 3 %\n=======\n  growth 4 % {\n>>>>>>> theirs\n  tare 3 kg\n}\nitem a 3 kg\n';
    const { declarations } = openDocument(text);
    expect(declarations.map(({ declaration }) => declaration.statement?.name?.text)).toEqual(['T', 'a']);
    const heads = declarations[0]?.declaration.statement?.block?.statements.map(({ head }) => head.text);
    expect(heads).toEqual(['brakes', 'growth', 'tare']);
    expect(declarations[0]?.declaration.problems.map(({ kind }) => kind)).toEqual(['conflict', 'conflict', 'conflict']);
  });

  it('a stray closing line is a problem and hides nothing', () => {
    const { declarations } = openDocument('item a 3 kg\n>>>>>>> theirs\nitem b 3 kg\n');
    expect(declarations.map(({ declaration }) => declaration.statement?.name?.text)).toEqual(['a', 'b']);
    expect(declarations[0]?.declaration.problems.map(({ kind }) => kind)).toEqual(['conflict']);
  });
});

// Installs the packaged .vsix into the browser-hosted VS Code, opens samples as a user would, and looks at what the
// user sees. Screenshots: out/shots/. Results: out/reports/workbench.json.
//   --readme   only renews the picture of the README, client/media/editor.png
import assert from 'node:assert/strict';
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { installHost, root } from '../scripts/install-vscode-host.mjs';
import {
  installVsix,
  launchBrowser,
  remoteUri,
  removeFolder,
  startServer,
  temporaryFolder,
  windowUrl,
} from '../scripts/vscode-server.mjs';

/** A sample with errors in it, and one without, that declares a rig. */
const BAD_SAMPLE = 'deliberately-bad/everything-wrong.rig';
const GOOD_SAMPLE = 'tandem-tourer.rig';
/** VS Code's own themes, with the class by which a window shows the kind of its theme. */
const THEMES = {
  dark: { id: 'Dark Modern', kind: 'vs-dark' },
  light: { id: 'Light Modern', kind: 'vs' },
  'high-contrast': { id: 'Default High Contrast', kind: 'hc-black' },
};
const TIMEOUT_MS = 30_000;

const shots = path.join(root, 'out', 'shots');
const report = path.join(root, 'out', 'reports', 'workbench.json');
const vscode = installHost();
const extensionsDir = temporaryFolder('extensions');
const workspace = path.join(temporaryFolder('samples'), 'samples');
cpSync(path.join(root, 'samples'), workspace, { recursive: true });
installVsix(vscode, path.join(root, 'dist', 'rigwright.vsix'), extensionsDir);
const server = await startServer(vscode, {
  extensionsDir,
  settings: { 'workbench.colorTheme': THEMES.dark.id, 'editor.minimap.enabled': false },
});
const browser = await launchBrowser();

/** A window with one sample open in its editor. */
async function openSample(file, viewport) {
  const page = await browser.newPage({ viewport });
  page.setDefaultTimeout(TIMEOUT_MS);
  const payload = [
    ['skipWelcome', 'true'],
    ['skipReleaseNotes', 'true'],
    ['openFile', remoteUri(server.port, path.join(workspace, file))],
  ];
  await page.goto(windowUrl(server.port, { open: workspace, payload }));
  await page.locator('.monaco-editor .view-line').first().waitFor();
  return page;
}

/** Line and column, from 1, of the name of the first rig in a sample. */
function rigName(file) {
  const text = readFileSync(path.join(workspace, file), 'utf8');
  const match = /^rig +(\w+)/m.exec(text);
  assert.ok(match, `${file} declares a rig`);
  const line = text.slice(0, match.index).split('\n').length;
  return { name: match[1], line, column: match[0].length - match[1].length + 1 };
}

/**
 * Opens the hover at a place by keyboard, as a user without a mouse would, and returns it. A busy machine may lose keys
 * typed before the editor has the focus, so it tries again.
 */
async function hoverAt(page, { line, column, name }) {
  // A finding at the same place is in the hover at once, the loads follow.
  const hover = page.locator('.monaco-hover', { hasText: name }).filter({ hasText: 'on level road' }).first();
  const quickInput = page.locator('.quick-input-widget');
  for (let attempts = 0; attempts < 5; attempts++) {
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+1'); // into the editor, wherever it is scrolled
    await page.keyboard.press('Control+G');
    await quickInput.waitFor();
    await page.keyboard.type(`${line}:${column + 1}`);
    await page.keyboard.press('Enter');
    await quickInput.waitFor({ state: 'hidden' });
    await page.keyboard.press('Control+K');
    await page.keyboard.press('Control+I');
    const shown = await hover.waitFor({ timeout: TIMEOUT_MS / 5 }).then(
      () => true,
      () => false,
    );
    if (shown) return hover;
  }
  throw new Error(`no hover on ${name}`);
}

async function useTheme(page, { id, kind }) {
  server.changeSettings({ 'workbench.colorTheme': id });
  await page.locator(`.monaco-workbench.${kind}`).waitFor();
}

/** Number of colours in which the text of the visible lines is drawn. */
const coloursOf = (page) =>
  page
    .locator('.monaco-editor .view-line span span')
    .evaluateAll((spans) => new Set(spans.map((span) => getComputedStyle(span).color)).size);

/** The picture shows findings and figures at once, so it shows the sample that is bad on purpose. */
async function renewReadmePicture() {
  const page = await openSample(BAD_SAMPLE, { width: 1200, height: 760 });
  await page.locator('.monaco-editor .squiggly-error').first().waitFor();
  await page.keyboard.press('Control+B'); // without the side bar
  await hoverAt(page, rigName(BAD_SAMPLE));
  const picture = path.join(root, 'client', 'media', 'editor.png');
  mkdirSync(path.dirname(picture), { recursive: true });
  await page.screenshot({ path: picture });
  console.log(picture);
}

async function runChecks() {
  const results = [];
  const check = async (title, body) => {
    const begin = performance.now();
    try {
      await body();
      results.push({ title });
      console.log(`ok    ${title} (${Math.round(performance.now() - begin)} ms)`);
    } catch (error) {
      results.push({ title, error: String(error.stack ?? error) });
      console.log(`FAIL  ${title}\n${error.stack ?? error}`);
    }
  };

  const page = await openSample(BAD_SAMPLE, { width: 1400, height: 850 });
  const squiggle = page.locator('.monaco-editor .squiggly-error').first();
  await check('an error is underlined', () => squiggle.waitFor());
  await check('the status bar counts it', () =>
    page
      .locator('#status\\.problems[aria-label*="Errors"], #status\\.problems', { hasText: /[1-9]/ })
      .first()
      .waitFor(),
  );
  await check('its message, code and source are in the hover', async () => {
    const box = await squiggle.boundingBox();
    await page.mouse.move(box.x + 300, box.y + 200); // elsewhere first, or no hover starts
    await page.mouse.move(box.x + Math.min(8, box.width / 2), box.y + box.height / 2, { steps: 5 });
    const hover = page.locator('.monaco-hover', { hasText: 'rigwright' }).first();
    await hover.waitFor();
    assert.match(await hover.textContent(), /rigwright\s*\(?\w+\d+\)?/);
  });
  await check('the text is coloured', async () => assert.ok((await coloursOf(page)) >= 5));
  const place = rigName(BAD_SAMPLE);
  for (const [name, theme] of Object.entries(THEMES)) {
    await check(`the hover of a rig shows its loads, ${name} theme`, async () => {
      await useTheme(page, theme);
      const hover = await hoverAt(page, place);
      assert.match(await hover.textContent(), /coupling[\s\S]*\d\s*kg/i);
      await page.screenshot({ path: path.join(shots, `editor-${name}.png`) });
    });
  }

  await check('a good sample shows its loads and no error', async () => {
    const good = await openSample(GOOD_SAMPLE, { width: 1400, height: 850 });
    await hoverAt(good, rigName(GOOD_SAMPLE));
    assert.equal(await good.locator('.monaco-editor .squiggly-error').count(), 0);
    await good.screenshot({ path: path.join(shots, 'editor-good.png') });
  });

  const failed = results.filter(({ error }) => error !== undefined).length;
  const passed = results.length - failed;
  writeFileSync(report, JSON.stringify({ passed, failed, results }, undefined, 1));
  console.log(`${passed} passed, ${failed} failed`);
  return failed === 0 && passed > 0;
}

let ok = false;
try {
  for (const folder of [shots, path.dirname(report)]) mkdirSync(folder, { recursive: true });
  if (process.argv.includes('--readme')) {
    await renewReadmePicture();
    ok = true;
  } else {
    rmSync(report, { force: true });
    ok = await runChecks();
  }
} catch (error) {
  console.error(error);
} finally {
  await browser.close();
  await server.stop();
  for (const folder of [extensionsDir, path.dirname(workspace)]) removeFolder(folder);
}
process.exit(ok ? 0 : 1); // the extension host lets go of our pipes some seconds later
